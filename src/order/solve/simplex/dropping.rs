//! Rows that are of no use at present, taken out.

use super::Dictionary;
use super::standing::VariableState;

impl Dictionary {
    /// Takes out the rows that hold nothing back at the present point.
    pub(in crate::order::solve) fn drop_slack(&mut self) {
        let width = self.width();
        let stands = &mut self.stands;
        let droppable = |at: usize| matches!(stands.place[width + at], VariableState::Basic(_));
        let keep: Vec<bool> = (0..self.rows.len()).map(|at| !droppable(at)).collect();
        if keep.iter().all(|kept| *kept) {
            return;
        }
        let mut number = Vec::with_capacity(stands.place.len());
        number.extend(0..width);
        let mut next = width;
        for kept in &keep {
            number.push(next);
            next += usize::from(*kept);
        }
        let stays = |variable: usize| variable < width || keep[variable - width];
        let basic: Vec<usize> = (0..stands.basic.len())
            .filter(|row| stays(stands.basic[*row]))
            .collect();
        self.cells = basic
            .iter()
            .flat_map(|row| self.cells[row * width..(row + 1) * width].iter().copied())
            .collect();
        stands.values = basic.iter().map(|row| stands.values[*row]).collect();
        stands.lengths = basic.iter().map(|row| stands.lengths[*row]).collect();
        stands.basic = basic.iter().map(|row| number[stands.basic[*row]]).collect();
        stands
            .nonbasic
            .iter_mut()
            .for_each(|variable| *variable = number[*variable]);
        let kept = |variable: &usize| stays(*variable);
        let variables: Vec<usize> = (0..stands.place.len()).filter(kept).collect();
        stands.least = variables.iter().map(|at| stands.least[*at]).collect();
        stands.most = variables.iter().map(|at| stands.most[*at]).collect();
        stands.place.truncate(next);
        let mut at = 0;
        self.rows.retain(|_| {
            at += 1;
            keep[at - 1]
        });
        stands.name_places();
    }
}
