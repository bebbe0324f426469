//! An account as data: one object for a program, rows of cells for a file.

use serde_json::{Map, Value};

use super::cell::Cell;
use super::section::{Pair, Part, Section};
use super::table::{Column, Seen, Table};
use crate::table::guard;

/// Sections as one object: fields by their ids, and under the id of a table, of sentences or of sums
/// the list of all that have this id. What has no id is left out.
pub fn object(sections: &[Section]) -> Value {
    let mut object = Map::new();
    for part in sections.iter().flat_map(|section| &section.parts) {
        match part {
            Part::Table(table) => add(&mut object, table.id, table.objects()),
            Part::Sentences(id, told) => {
                let texts = told.iter().map(|one| one.text.clone().into());
                add(&mut object, id, texts.collect());
            }
            Part::Pairs(pairs) => object.extend(fields(pairs)),
            Part::Sums(id, pairs) => add(
                &mut object,
                id,
                vec![Value::Object(fields(pairs).collect())],
            ),
        }
    }
    Value::Object(object)
}

fn add(object: &mut Map<String, Value>, id: &str, more: Vec<Value>) {
    if id.is_empty() {
        return;
    }
    let list = object.entry(id).or_insert_with(|| Value::Array(Vec::new()));
    if let Value::Array(list) = list {
        list.extend(more);
    }
}

fn fields(pairs: &[Pair]) -> impl Iterator<Item = (String, Value)> {
    let known = pairs.iter().filter(|pair| !pair.id.is_empty());
    known.map(|pair| (pair.id.to_string(), pair.cell.data()))
}

impl Table {
    /// Each row as an object, by the ids of the columns.
    pub fn objects(&self) -> Vec<Value> {
        let object = |row: &Vec<Cell>| {
            let cells = self.columns.iter().zip(row);
            let known = cells.filter(|(column, _)| !column.id.is_empty());
            let fields = known.map(|(column, cell)| (column.id.clone(), cell.data()));
            Value::Object(fields.collect())
        };
        self.rows.iter().map(object).collect()
    }

    /// The heading of the table in a file of cells.
    pub fn heading(&self) -> Vec<String> {
        self.in_a_file()
            .map(|(_, column)| guard::neutral(&column.name).into_owned())
            .collect()
    }

    /// A row of the table in a file of cells.
    pub fn file_row(&self, row: &[Cell]) -> Vec<String> {
        self.in_a_file()
            .map(|(at, _)| row[at].in_a_file())
            .collect()
    }

    /// The heading and all rows, as a file holds them.
    pub fn file_rows(&self) -> Vec<Vec<String>> {
        let rows = self.rows.iter().map(|row| self.file_row(row));
        std::iter::once(self.heading()).chain(rows).collect()
    }

    fn in_a_file(&self) -> impl Iterator<Item = (usize, &Column)> {
        let columns = self.columns.iter().enumerate();
        columns.filter(|(_, column)| column.seen != Seen::OnPaper)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::{parse, write};
    use proptest::prelude::*;
    use serde_json::json;

    fn table(id: &'static str) -> Table {
        let columns = [
            Column::words("variety", "variety"),
            Column::figures("", "of all"),
            Column::words("note", "note").seen(Seen::AsData),
            Column::words("", "came").seen(Seen::OnPaper),
        ];
        Table::of(id, columns)
    }

    #[test]
    fn lists_with_one_id_are_one_list_and_what_has_none_is_left_out() {
        let part = |name: &str| {
            let of = table("lines");
            let row = of.row([("variety", name.into())]);
            Part::Table(of.with([row]))
        };
        let sum = |count: u64| Part::Sums("suppliers", vec![Pair::new("total", "to pay", count)]);
        let sections = [
            Section::under("Oar Bulbs")
                .with(part("Haaf Bell"))
                .with(sum(1)),
            Section::under("Ebb Nursery")
                .with(part("Ebb Kist"))
                .with(sum(2)),
            Section::default().with(Part::Pairs(vec![Pair::data("places", 40_u64)])),
            Section::default().with(Part::Table(table("short"))),
            Section::default().with(Part::sentences("", ["unheard"])),
        ];
        assert_eq!(
            object(&sections),
            json!({
                "lines": [{ "variety": "Haaf Bell", "note": null }, { "variety": "Ebb Kist", "note": null }],
                "suppliers": [{ "total": 1 }, { "total": 2 }],
                "places": 40,
                "short": [],
            })
        );
    }

    proptest! {
        /// What a file holds reads back as the words that were written, and nothing in it is a formula.
        #[test]
        fn a_table_written_as_a_file_reads_back(names in prop::collection::vec("[a-c=+'\",;@\r\n é-]{1,8}x", 1..5)) {
            let table = table("lines");
            let rows = names.iter().map(|name| {
                table.row([("variety", name.as_str().into()), ("note", Cell::Share(0.5))])
            });
            let table = table.clone().with(rows);
            let mut cells = vec![table.heading()];
            cells.extend(table.rows.iter().map(|row| table.file_row(row)));
            let bytes = write(cells.iter().map(Vec::as_slice));
            let (read, _) = parse(&String::from_utf8(bytes).expect("UTF-8")).expect("a table");
            prop_assert_eq!(&read.rows[0].cells, &["variety", "of all", "note"]);
            for (row, name) in read.rows[1..].iter().zip(&names) {
                prop_assert_eq!(guard::plain(&row.cells[0]), name.as_str());
                prop_assert_eq!(&row.cells[2], "0.5");
            }
            prop_assert_eq!(read.rows.len(), names.len() + 1);
        }
    }
}
