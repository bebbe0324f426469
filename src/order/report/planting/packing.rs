//! Things packed whole into rooms: a search of first fits, the largest first.

/// The room of each thing, in which all of it fits beside the others; `None` where there is no way, or
/// none was found in so many steps.
pub(super) fn packed(sizes: &[u64], rooms: &[u64], most: usize) -> Option<Vec<usize>> {
    if sizes.iter().sum::<u64>() > rooms.iter().sum() {
        return None;
    }
    let mut largest: Vec<usize> = (0..sizes.len()).collect();
    largest.sort_by_key(|one| std::cmp::Reverse(sizes[*one]));
    let mut search = Search {
        sizes: largest.iter().map(|one| sizes[*one]).collect(),
        rooms: rooms.to_vec(),
        chosen: Vec::new(),
        left: most,
    };
    if !search.goes_on() {
        return None;
    }
    let mut of = vec![0; sizes.len()];
    for (one, room) in largest.into_iter().zip(search.chosen) {
        of[one] = room;
    }
    Some(of)
}

struct Search {
    /// Falling.
    sizes: Vec<u64>,
    /// What is left of each room.
    rooms: Vec<u64>,
    /// Of the first sizes, their rooms.
    chosen: Vec<usize>,
    /// Steps that may still be made.
    left: usize,
}

impl Search {
    /// Whether what is not packed yet has a way.
    fn goes_on(&mut self) -> bool {
        let at = self.chosen.len();
        let Some(size) = self.sizes.get(at).copied() else {
            return true;
        };
        let Some(left) = self.left.checked_sub(1) else {
            return false;
        };
        self.left = left;
        // Of things of one size the later stands in no earlier room: the other way round is the same.
        let same = at > 0 && self.sizes[at - 1] == size;
        let from = if same { self.chosen[at - 1] } else { 0 };
        for room in from..self.rooms.len() {
            let free = self.rooms[room];
            // As much room as in one that was tried is tried once.
            let tried = self.rooms[from..room].contains(&free);
            if free < size || tried {
                continue;
            }
            self.rooms[room] -= size;
            self.chosen.push(room);
            if self.goes_on() {
                return true;
            }
            self.chosen.pop();
            self.rooms[room] += size;
        }
        false
    }
}
