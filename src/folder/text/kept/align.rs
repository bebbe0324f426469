//! Which value of a list as it was is which of the list as it is.

use std::collections::VecDeque;

use hashbrown::HashMap;

use crate::problem::{Node, Shape};

/// More pairs than this are not all looked at for the longest run that both lists have.
const MOST_PAIRS: usize = 40_000;
/// The fields that a record is known by.
const KNOWN_BY: [&str; 3] = ["name", "id", "number"];

/// For each value of the new list its place in the old one; `None` of one that is new. Both are as the
/// program writes them.
///
/// Values that are equal are the same; then records of one name, wherever they stand; then what else
/// is alike between two that are known, so that a record with a new name is still that record.
pub(super) fn aligned(old: &[&str], new: &[&str]) -> Vec<Option<usize>> {
    let same = old.iter().zip(new).take_while(|(old, new)| old == new);
    let first = same.count();
    let (rest_old, rest_new) = (&old[first..], &new[first..]);
    let backwards = rest_old.iter().rev().zip(rest_new.iter().rev());
    let last = backwards.take_while(|(old, new)| old == new).count();
    let mut found: Vec<Option<usize>> = vec![None; new.len()];
    for (at, found) in found.iter_mut().enumerate().take(first) {
        *found = Some(at);
    }
    for at in 1..=last {
        found[new.len() - at] = Some(old.len() - at);
    }
    let middle = Middle {
        old: &rest_old[..rest_old.len() - last],
        new: &rest_new[..rest_new.len() - last],
    };
    for (at, own) in middle.aligned().into_iter().enumerate() {
        found[first + at] = own.map(|own| first + own);
    }
    found
}

/// Which of the old values stay where they are, so that as few as can be move: for each new value
/// whether its old one does.
pub(super) fn staying(found: &[Option<usize>]) -> Vec<bool> {
    // The end of the best run of each length so far, and what came before each value in its run.
    let mut ends: Vec<(usize, usize)> = Vec::new();
    let mut before: Vec<Option<usize>> = vec![None; found.len()];
    for (at, own) in found.iter().enumerate() {
        let Some(own) = *own else { continue };
        let length = ends.partition_point(|(end, _)| *end < own);
        before[at] = length.checked_sub(1).map(|shorter| ends[shorter].1);
        match ends.get_mut(length) {
            Some(end) => *end = (own, at),
            None => ends.push((own, at)),
        }
    }
    let mut stays = vec![false; found.len()];
    let mut next = ends.last().map(|(_, at)| *at);
    while let Some(at) = next {
        stays[at] = true;
        next = before[at];
    }
    stays
}

/// What is between the values at both ends that are equal.
struct Middle<'a> {
    old: &'a [&'a str],
    new: &'a [&'a str],
}

impl Middle<'_> {
    fn aligned(&self) -> Vec<Option<usize>> {
        let mut found = match self.old.len() * self.new.len() <= MOST_PAIRS {
            true => self.longest_run(),
            false => vec![None; self.new.len()],
        };
        self.equal(&mut found);
        let unknown = (self.unknown_old(&found), unknown_new(&found));
        if !unknown.0.is_empty() && !unknown.1.is_empty() {
            self.of_one_name(&mut found, &unknown.0, &unknown.1);
            self.alike(&mut found);
        }
        found
    }

    /// The longest run of equal values that both lists have in the same order.
    fn longest_run(&self) -> Vec<Option<usize>> {
        let (rows, columns) = (self.old.len(), self.new.len());
        let mut length = vec![vec![0_u32; columns + 1]; rows + 1];
        for row in (0..rows).rev() {
            for column in (0..columns).rev() {
                length[row][column] = match self.old[row] == self.new[column] {
                    true => length[row + 1][column + 1] + 1,
                    false => length[row + 1][column].max(length[row][column + 1]),
                };
            }
        }
        let mut found = vec![None; columns];
        let (mut row, mut column) = (0, 0);
        while row < rows && column < columns {
            if self.old[row] == self.new[column] {
                found[column] = Some(row);
                (row, column) = (row + 1, column + 1);
            } else if length[row + 1][column] >= length[row][column + 1] {
                row += 1;
            } else {
                column += 1;
            }
        }
        found
    }

    /// Equal values, wherever they stand.
    fn equal(&self, found: &mut [Option<usize>]) {
        let mut places: HashMap<&str, VecDeque<usize>> = HashMap::new();
        for at in self.unknown_old(found) {
            places.entry(self.old[at]).or_default().push_back(at);
        }
        for at in unknown_new(found) {
            found[at] = places.get_mut(self.new[at]).and_then(VecDeque::pop_front);
        }
    }

    fn of_one_name(&self, found: &mut [Option<usize>], old: &[usize], new: &[usize]) {
        let named = old
            .iter()
            .filter_map(|at| Some((name(self.old[*at])?, *at)));
        let mut named: HashMap<String, usize> = named.collect();
        for at in new {
            found[*at] = name(self.new[*at]).and_then(|name| named.remove(&name));
        }
    }

    /// Between two that are known, each with the one that is most like it.
    fn alike(&self, found: &mut [Option<usize>]) {
        let mut left: Vec<usize> = self.unknown_old(found);
        for at in unknown_new(found) {
            if left.is_empty() {
                return;
            }
            let before = found[..at].iter().rev().find_map(|own| *own);
            let after = found[at..].iter().find_map(|own| *own);
            let between = |own: usize| {
                before.is_none_or(|before| before < own) && after.is_none_or(|after| own < after)
            };
            let likeness = |own: usize| likeness(self.old[own], self.new[at]);
            let near = left.iter().copied().filter(|own| between(*own));
            let near = near.filter_map(|own| Some((likeness(own)?, std::cmp::Reverse(own))));
            if let Some((_, std::cmp::Reverse(own))) = near.max() {
                found[at] = Some(own);
                left.retain(|other| *other != own);
            }
        }
    }

    fn unknown_old(&self, found: &[Option<usize>]) -> Vec<usize> {
        let mut unknown = vec![true; self.old.len()];
        for own in found.iter().flatten() {
            unknown[*own] = false;
        }
        (0..self.old.len()).filter(|at| unknown[*at]).collect()
    }
}

fn unknown_new(found: &[Option<usize>]) -> Vec<usize> {
    let all = found.iter().enumerate();
    all.filter(|(_, own)| own.is_none())
        .map(|(at, _)| at)
        .collect()
}

/// What a record is known by; `None` where it has no such field.
fn name(text: &str) -> Option<String> {
    let record = Node::of(text);
    let mut within = record.within.iter();
    let field = within.find(|held| held.name(text).is_some_and(|name| KNOWN_BY.contains(&name)))?;
    Some(text[field.start..field.end].to_string())
}

/// How much of two values is equal, of a thousand; `None` where it is less than about half of a record, or
/// they are of two kinds.
fn likeness(old: &str, new: &str) -> Option<usize> {
    let nodes = (Node::of(old), Node::of(new));
    if nodes.0.shape != nodes.1.shape {
        return None;
    }
    if nodes.0.shape == Shape::Word {
        return Some(0);
    }
    let (before, after) = (parts(&nodes.0, old), parts(&nodes.1, new));
    let all = before.len().max(after.len()).max(1);
    let equal = before.iter().filter(|part| after.contains(part)).count();
    (2 * equal + 1 >= all).then(|| 1000 * equal / all)
}

fn parts<'a>(node: &Node, text: &'a str) -> Vec<&'a str> {
    let within = node.within.iter();
    within.map(|held| &text[held.start..held.end]).collect()
}
