//! Rows that are of no use at present, taken out.

use super::{Dictionary, VariableState};

impl Dictionary {
    /// Takes out the rows that hold nothing back at the present point.
    pub(in crate::order::solve) fn drop_slack(&mut self) {
        let width = self.width();
        let droppable = |at: usize| matches!(self.place[width + at], VariableState::Basic(_));
        let keep: Vec<bool> = (0..self.rows.len()).map(|at| !droppable(at)).collect();
        if keep.iter().all(|kept| *kept) {
            return;
        }
        let mut number = Vec::with_capacity(self.place.len());
        number.extend(0..width);
        let mut next = width;
        for kept in &keep {
            number.push(next);
            next += usize::from(*kept);
        }
        let stays = |variable: usize| variable < width || keep[variable - width];
        let basic: Vec<usize> = (0..self.basic.len())
            .filter(|row| stays(self.basic[*row]))
            .collect();
        self.cells = basic
            .iter()
            .flat_map(|row| self.cells[row * width..(row + 1) * width].iter().copied())
            .collect();
        self.values = basic.iter().map(|row| self.values[*row]).collect();
        self.lengths = basic.iter().map(|row| self.lengths[*row]).collect();
        self.basic = basic.iter().map(|row| number[self.basic[*row]]).collect();
        self.nonbasic
            .iter_mut()
            .for_each(|variable| *variable = number[*variable]);
        let kept = |variable: &usize| stays(*variable);
        let variables: Vec<usize> = (0..self.place.len()).filter(kept).collect();
        self.least = variables.iter().map(|at| self.least[*at]).collect();
        self.most = variables.iter().map(|at| self.most[*at]).collect();
        self.place.truncate(next);
        let mut at = 0;
        self.rows.retain(|_| {
            at += 1;
            keep[at - 1]
        });
        self.name_places();
    }
}
