//! Which field an unread heading may stand for: by what it is near to, and by what its cells look like.

use super::Terms;
use super::cell;
use super::colours;
use super::columns::{LaidOut, split_unit};
use super::field::Field;
use super::kind::Kind;
use super::lengths;
use super::nearest::nearest;
use super::term::term_of;
use crate::table::Table;
use crate::variety::text::plain;

/// Fields that are offered, at most.
const MOST_OFFERED: usize = 5;
/// Rows that are looked at: enough to tell names from prices.
const LOOKED_AT: usize = 50;

/// The fields that the column at a place may be, best first; none that another column has.
pub(super) fn candidates(
    at: usize,
    laid_out: &LaidOut,
    table: &Table,
    terms: &Terms,
) -> Vec<Field> {
    let columns = &laid_out.columns;
    let (words, unit) = split_unit(&columns.columns[at].heading);
    let spelt = Field::spellings().map(|(spelt, field)| (spelt, field.heading()));
    let named = nearest(&words, spelt, Field::ALL.len());
    let named: Vec<Field> = named.into_iter().filter_map(Field::of_heading).collect();
    let alike = alike(&cells(laid_out, table, at), terms);
    // What heading and cells both speak for comes first, then what the cells look like.
    let both = named.iter().filter(|field| alike.contains(field));
    let mut found: Vec<Field> = Vec::new();
    for field in both.chain(&alike).chain(&named) {
        let fits = unit.is_none() || field.is_length();
        let taken = columns.has(*field) || *field == Field::Name;
        if fits && !taken && !found.contains(field) && found.len() < MOST_OFFERED {
            found.push(*field);
        }
    }
    found
}

/// The columns that may have the names, likeliest first: of those that are not read, those with most
/// different words in them.
pub(super) fn names(laid_out: &LaidOut, table: &Table) -> Vec<usize> {
    let columns = &laid_out.columns.columns;
    let unread = (0..columns.len()).filter(|at| columns[*at].field.is_none());
    let unread = unread.filter(|at| !columns[*at].heading.is_empty());
    let different = |at: &usize| {
        let mut cells = cells(laid_out, table, *at);
        cells.retain(|cell| cell.chars().any(char::is_alphabetic));
        cells.sort_unstable();
        cells.dedup();
        std::cmp::Reverse(cells.len())
    };
    let mut found: Vec<usize> = unread.collect();
    found.sort_by_cached_key(different);
    found
}

/// Fields whose cells look as these do, the plainest first.
fn alike(cells: &[String], terms: &Terms) -> Vec<Field> {
    let most = |is: &dyn Fn(&str) -> bool| {
        let count = cells.iter().filter(|cell| is(cell)).count();
        count > 0 && count * 2 > cells.len()
    };
    let is_length = |cell: &str| {
        lengths::reach(cell, None).is_ok() && cell.contains(|c: char| !c.is_ascii_digit())
    };
    let is_price = |cell: &str| {
        let marked = cell.contains(['£', '$', '€']) || cell.contains(['.', ',']);
        marked && cell::money(cell).is_ok()
    };
    let checks: [(Check<'_>, &[Field]); 7] = [
        (
            &|cell| term_of(Kind::Form, cell, terms).is_some(),
            &[Field::Form],
        ),
        (
            &|cell| term_of(Kind::Size, cell, terms).is_some(),
            &[Field::Size],
        ),
        (
            &|cell| colours::listed(cell, terms).is_ok(),
            &[Field::Colour, Field::SecondColour],
        ),
        (&is_price, &[Field::Price]),
        (&|cell| cell::date(cell).is_ok(), &[Field::Closes]),
        (
            &is_length,
            &[Field::Height, Field::Stem, Field::StatedDiameter],
        ),
        (
            &|cell| cell::whole(cell).is_ok(),
            &[Field::OnHand, Field::Available, Field::Pack],
        ),
    ];
    let alike = checks.iter().filter(|(is, _)| most(is));
    alike
        .flat_map(|(_, fields)| fields.iter().copied())
        .collect()
}

/// Whether a cell may be of some fields.
type Check<'a> = &'a dyn Fn(&str) -> bool;

/// The first cells of a column that are not empty.
fn cells(laid_out: &LaidOut, table: &Table, at: usize) -> Vec<String> {
    let rows = laid_out.columns.rows(table).iter().take(LOOKED_AT);
    let cells = rows.map(|row| plain(row.cell(at)));
    cells.filter(|cell| !cell.is_empty()).collect()
}
