//! The model as free MPS, so that any solver can check the optimum: the whole of it, every week and
//! every sharing out of stems, with nothing merged, dropped or cut.
//!
//! The objective is money, in the grower's currency. Names are `x` packs of an offer, `p` plants of
//! a variety, `z` stems of a variety for a need in a week, `u` a variety counts for a need, `g` a
//! form counts for a need in a week, `s` something is bought of a supplier, `f` its postage is free.

use std::fmt::Write;

use super::model::Model;

/// Rows and columns gathered before they are written.
#[derive(Default)]
struct Sheet {
    /// Kind (`L` or `G`), name, right-hand side in thousandths.
    rows: Vec<(char, String, i128)>,
    columns: Vec<Column>,
}

struct Column {
    name: String,
    whole: bool,
    /// Hundredths of money.
    cost: i128,
    most: Option<u64>,
    least: u64,
    /// Row and thousandths.
    cells: Vec<(usize, i128)>,
}

impl Model {
    /// The model as text in free MPS.
    pub fn to_mps(&self) -> String {
        let mut sheet = Sheet::default();
        let packs: Vec<usize> = (self.offers.iter().enumerate())
            .map(|(at, one)| sheet.whole(format!("x{at}"), one.least, Some(one.most), one.price))
            .collect();
        let plants: Vec<usize> = (self.varieties.iter().enumerate())
            .map(|(at, one)| sheet.whole(format!("p{at}"), 0, one.most_plants, 0))
            .collect();
        self.write_planting(&mut sheet, &packs, &plants);
        self.write_suppliers(&mut sheet, &packs);
        let counted = self.write_variety_counts(&mut sheet);
        self.write_sharing(&mut sheet, &plants, &counted);
        sheet.text()
    }

    fn write_planting(&self, sheet: &mut Sheet, packs: &[usize], plants: &[usize]) {
        for (at, candidate) in self.varieties.iter().enumerate() {
            let row = sheet.row('L', format!("tubers{at}"), whole(candidate.on_hand));
            sheet.put(plants[at], row, 1000);
            let offers = self
                .offers
                .iter()
                .zip(packs)
                .filter(|(offer, _)| offer.variety == at);
            for (offer, column) in offers {
                sheet.put(*column, row, -whole(offer.tubers));
            }
        }
        if let Some(places) = self.places {
            let row = sheet.row('L', "bed".into(), whole(places));
            plants
                .iter()
                .for_each(|column| sheet.put(*column, row, 1000));
        }
        for (at, group) in self.trials.iter().enumerate() {
            let row = sheet.row('G', format!("try{at}"), whole(group.plants));
            group
                .varieties
                .iter()
                .for_each(|one| sheet.put(plants[*one], row, 1000));
        }
    }

    fn write_suppliers(&self, sheet: &mut Sheet, packs: &[usize]) {
        let money = self
            .money
            .map(|money| sheet.row('L', "money".into(), hundredths(money)));
        for (at, supplier) in self.suppliers.iter().enumerate() {
            let used = sheet.whole(format!("s{at}"), 0, Some(1), supplier.postage);
            let least = sheet.row('G', format!("least{at}"), 0);
            sheet.put(used, least, -hundredths(supplier.least));
            let free = supplier.free_over.map(|over| {
                let free = sheet.whole(format!("f{at}"), 0, Some(1), 0);
                sheet.columns[free].cost = -i128::from(supplier.postage);
                let both = sheet.row('L', format!("free{at}"), 0);
                sheet.put(free, both, 1000);
                sheet.put(used, both, -1000);
                let enough = sheet.row('G', format!("over{at}"), 0);
                sheet.put(free, enough, -hundredths(over));
                (free, enough)
            });
            if let Some(money) = money {
                sheet.put(used, money, hundredths(supplier.postage));
                if let Some((free, _)) = free {
                    sheet.put(free, money, -hundredths(supplier.postage));
                }
            }
            for (place, offer) in self.offers.iter().enumerate() {
                if offer.supplier != at {
                    continue;
                }
                let link = sheet.row('L', format!("buys{place}"), 0);
                sheet.put(packs[place], link, 1000);
                sheet.put(used, link, -whole(offer.most));
                let rows = [Some(least), free.map(|(_, enough)| enough), money];
                for row in rows.into_iter().flatten() {
                    sheet.put(packs[place], row, hundredths(offer.price));
                }
            }
        }
    }

    /// The columns that say that a variety counts for a need, by need and variety.
    fn write_variety_counts(&self, sheet: &mut Sheet) -> Vec<Vec<Option<usize>>> {
        let mut counted = vec![vec![None; self.varieties.len()]; self.needs.len()];
        for (at, need) in self
            .needs
            .iter()
            .enumerate()
            .filter(|(_, need)| need.counts())
        {
            let able = self.varieties.iter().enumerate();
            for (variety, _) in able.filter(|(_, one)| one.serves.contains(&at)) {
                counted[at][variety] = Some(sheet.whole(format!("u{variety}_{at}"), 0, Some(1), 0));
            }
            for week in (0..self.weeks).filter(|week| need.runs(*week)) {
                let flowering: Vec<(usize, usize)> = (self.varieties.iter().enumerate())
                    .filter(|(_, one)| one.yields[week] > 0)
                    .filter_map(|(variety, one)| Some((counted[at][variety]?, one.form)))
                    .collect();
                let row = sheet.row('G', format!("varieties{at}_{week}"), whole(need.varieties));
                flowering
                    .iter()
                    .for_each(|(column, _)| sheet.put(*column, row, 1000));
                let mut forms: Vec<usize> = flowering.iter().map(|(_, form)| *form).collect();
                forms.sort_unstable();
                forms.dedup();
                let row = sheet.row('G', format!("forms{at}_{week}"), whole(need.forms));
                for form in forms {
                    let counts = sheet.column(format!("g{form}_{at}_{week}"), Some(1));
                    sheet.put(counts, row, 1000);
                    let link = sheet.row('L', format!("form{form}_{at}_{week}"), 0);
                    sheet.put(counts, link, 1000);
                    let of_form = flowering.iter().filter(|(_, other)| *other == form);
                    of_form.for_each(|(column, _)| sheet.put(*column, link, -1000));
                }
            }
        }
        counted
    }

    fn write_sharing(&self, sheet: &mut Sheet, plants: &[usize], counted: &[Vec<Option<usize>>]) {
        for week in 0..self.weeks {
            let demand: Vec<Option<usize>> = (self.needs.iter().enumerate())
                .map(|(at, need)| {
                    let rhs = i128::from(need.stems[week]);
                    need.runs(week)
                        .then(|| sheet.row('G', format!("need{at}_{week}"), rhs))
                })
                .collect();
            for (at, candidate) in self.varieties.iter().enumerate() {
                let serving: Vec<usize> = candidate.serving(self, week).collect();
                if serving.is_empty() {
                    continue;
                }
                let grown = sheet.row('L', format!("grown{at}_{week}"), 0);
                sheet.put(plants[at], grown, -i128::from(candidate.yields[week]));
                for need in serving {
                    let stems = sheet.column(format!("z{at}_{need}_{week}"), None);
                    sheet.put(stems, grown, 1000);
                    if let Some(row) = demand[need] {
                        sheet.put(stems, row, 1000);
                    }
                    if let Some(limit) = self.needs[need].limit(week) {
                        let row = sheet.row('L', format!("most{at}_{need}_{week}"), limit.into());
                        sheet.put(stems, row, 1000);
                    }
                    if let Some(counts) = counted[need][at] {
                        let row = sheet.row('G', format!("each{at}_{need}_{week}"), 0);
                        sheet.put(stems, row, 1000);
                        sheet.put(counts, row, -i128::from(self.needs[need].each));
                    }
                }
            }
        }
    }
}

impl Sheet {
    fn row(&mut self, kind: char, name: String, rhs: i128) -> usize {
        self.rows.push((kind, name, rhs));
        self.rows.len() - 1
    }

    fn whole(&mut self, name: String, least: u64, most: Option<u64>, cost: u64) -> usize {
        let (whole, cells) = (true, Vec::new());
        self.columns.push(Column {
            name,
            whole,
            cost: cost.into(),
            most,
            least,
            cells,
        });
        self.columns.len() - 1
    }

    fn column(&mut self, name: String, most: Option<u64>) -> usize {
        let (whole, cells) = (false, Vec::new());
        self.columns.push(Column {
            name,
            whole,
            cost: 0,
            most,
            least: 0,
            cells,
        });
        self.columns.len() - 1
    }

    fn put(&mut self, column: usize, row: usize, thousandths: i128) {
        if thousandths != 0 {
            self.columns[column].cells.push((row, thousandths));
        }
    }

    fn text(&self) -> String {
        // OK because writing to a String cannot fail.
        self.write().unwrap_or_default()
    }

    fn write(&self) -> Result<String, std::fmt::Error> {
        let mut text = String::from("NAME order\nROWS\n N cost\n");
        for (kind, name, _) in &self.rows {
            writeln!(text, " {kind} {name}")?;
        }
        text.push_str("COLUMNS\n");
        let mut whole = false;
        for (at, column) in self.columns.iter().enumerate() {
            if column.whole != whole {
                let mark = if column.whole { "INTORG" } else { "INTEND" };
                writeln!(text, " mark{at} 'MARKER' '{mark}'")?;
                whole = column.whole;
            }
            // A column without a cell is named all the same, or it would not be there.
            writeln!(text, " {} cost {}", column.name, decimal(column.cost * 10))?;
            for (row, value) in &column.cells {
                writeln!(
                    text,
                    " {} {} {}",
                    column.name,
                    self.rows[*row].1,
                    decimal(*value)
                )?;
            }
        }
        if whole {
            text.push_str(" markend 'MARKER' 'INTEND'\n");
        }
        text.push_str("RHS\n");
        for (_, name, rhs) in self.rows.iter().filter(|row| row.2 != 0) {
            writeln!(text, " rhs {name} {}", decimal(*rhs))?;
        }
        text.push_str("BOUNDS\n");
        for column in &self.columns {
            writeln!(text, " LO bound {} {}", column.name, column.least)?;
            match column.most {
                Some(most) => writeln!(text, " UP bound {} {most}", column.name)?,
                None => writeln!(text, " PL bound {}", column.name)?,
            }
        }
        text.push_str("ENDATA\n");
        Ok(text)
    }
}

/// A whole number in thousandths.
fn whole(number: u64) -> i128 {
    i128::from(number) * 1000
}

/// Hundredths in thousandths.
fn hundredths(number: u64) -> i128 {
    i128::from(number) * 10
}

/// Thousandths as a decimal, exactly.
fn decimal(thousandths: i128) -> String {
    let sign = if thousandths < 0 { "-" } else { "" };
    let size = thousandths.unsigned_abs();
    let text = format!("{sign}{}.{:03}", size / 1000, size % 1000);
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}
