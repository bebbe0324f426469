use super::*;
use proptest::prelude::*;

/// Small programs in whole numbers, as they come in the order: covering rows, limits, boxes.
fn any_program() -> impl Strategy<Value = (Vec<f64>, Vec<f64>, Vec<Row>)> {
    let whole = |range: std::ops::Range<i32>| range.prop_map(f64::from);
    (1..5_usize).prop_flat_map(move |columns| {
        let row = (
            prop::collection::vec(whole(-3..6), columns),
            whole(-4..14),
            prop::bool::ANY,
        )
            .prop_map(|(cells, side, covers)| {
                let cells = cells
                    .into_iter()
                    .enumerate()
                    .filter(|cell| cell.1 != 0.0)
                    .collect();
                if covers {
                    Row {
                        cells,
                        least: side,
                        most: f64::INFINITY,
                    }
                } else {
                    Row {
                        cells,
                        least: f64::NEG_INFINITY,
                        most: side,
                    }
                }
            });
        (
            prop::collection::vec(whole(0..9), columns),
            prop::collection::vec(whole(0..5), columns),
            prop::collection::vec(row, 0..5),
        )
    })
}

/// The same program by another solver.
fn by_microlp(cost: &[f64], most: &[f64], rows: &[Row]) -> Option<f64> {
    let mut problem = microlp::Problem::new(microlp::OptimizationDirection::Minimize);
    let columns: Vec<_> = cost
        .iter()
        .zip(most)
        .map(|(cost, most)| problem.add_var(*cost, (0.0, *most)))
        .collect();
    for row in rows {
        let cells: Vec<_> = row
            .cells
            .iter()
            .map(|(at, cell)| (columns[*at], *cell))
            .collect();
        if row.least.is_finite() {
            problem.add_constraint(&cells[..], microlp::ComparisonOp::Ge, row.least);
        } else {
            problem.add_constraint(&cells[..], microlp::ComparisonOp::Le, row.most);
        }
    }
    match problem.solve() {
        Ok(microlp::SolveOutcome::Solution(solution)) => Some(solution.objective()),
        _ => None,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]
    #[test]
    fn the_optimum_is_that_of_another_solver((cost, most, rows) in any_program()) {
        let mut dictionary = Dictionary::new(cost.clone(), vec![0.0; most.len()], most.clone());
        // Half of the rows come after a first solve, as cuts do.
        let half = rows.len() / 2;
        rows[..half].iter().for_each(|row| dictionary.add(row.clone()));
        dictionary.solve(f64::INFINITY, 1000);
        rows[half..].iter().for_each(|row| dictionary.add(row.clone()));
        let ended = dictionary.solve(f64::INFINITY, 1000);
        match by_microlp(&cost, &most, &rows) {
            Some(optimum) => {
                prop_assert_eq!(ended, Ended::Optimal);
                prop_assert!((dictionary.objective() - optimum).abs() < 1e-6);
                prop_assert!((dictionary.proved_bound() - optimum).abs() < 1e-6);
                prop_assert!(!dictionary.proved_infeasible());
            }
            None => {
                prop_assert_eq!(ended, Ended::Infeasible);
                prop_assert!(dictionary.proved_infeasible());
            }
        }
    }

    /// A trial comes to what the dictionary itself comes to with the bound, and leaves it as it was.
    #[test]
    fn a_trial_is_the_dictionary_with_the_bound_moved(
        (cost, most, rows) in any_program(),
        bound in 0..4_i32,
        upper in any::<bool>(),
    ) {
        let mut dictionary = Dictionary::new(cost, vec![0.0; most.len()], most.clone());
        rows.iter().for_each(|row| dictionary.add(row.clone()));
        if dictionary.solve(f64::INFINITY, 1000) != Ended::Optimal {
            return Ok(());
        }
        let before = dictionary.objective();
        for column in 0..most.len() {
            let bound = f64::from(bound).min(most[column]);
            let (mut low, mut high) = (vec![0.0; most.len()], most.clone());
            let side = if upper { &mut high } else { &mut low };
            side[column] = bound;
            let mut moved = dictionary.clone();
            moved.set_bounds(&low, &high);
            let ended = moved.solve(f64::INFINITY, 1000);
            let mut trial = dictionary.with_bound(column, upper, bound);
            prop_assert_eq!(trial.solve(f64::INFINITY, 1000), ended);
            if ended == Ended::Optimal {
                prop_assert!((trial.objective() - moved.objective()).abs() < 1e-6);
            }
            drop(trial);
            prop_assert_eq!(dictionary.objective(), before);
        }
    }
}
