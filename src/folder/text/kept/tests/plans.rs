//! Plans as growers write them, and what is other after a change.

use super::super::Holds;
use crate::order::{Item, Plan};

fn again(text: &str) -> Option<String> {
    Plan::read("order.ron", text).ok()?.write().ok()
}

/// What changes a plan.
type Edit<'a> = &'a dyn Fn(&mut Plan);

/// The lines of a plan's text that are other after a change: `-` before, `+` after.
#[track_caller]
fn changed(text: &str, edit: Edit<'_>) -> String {
    let mut plan = Plan::read("order.ron", text).expect("a plan");
    edit(&mut plan);
    let new = plan.write().expect("writes");
    let change = Holds::Value(again).change(text, &new).expect("is kept");
    assert_eq!(Plan::read("order.ron", &change.text), Ok(plan));
    let back = change.splices.reversed(text).expect("a way back");
    assert_eq!(back.applied(&change.text).as_deref(), Some(text));
    difference(text, &change.text)
}

pub(super) fn difference(before: &str, after: &str) -> String {
    let (old, new): (Vec<&str>, Vec<&str>) =
        (before.split('\n').collect(), after.split('\n').collect());
    let first = old.iter().zip(&new).take_while(|(a, b)| a == b).count();
    let rest = old[first..].iter().rev().zip(new[first..].iter().rev());
    let last = rest.take_while(|(a, b)| a == b).count();
    let minus = old[first..old.len() - last]
        .iter()
        .map(|line| format!("-{line}\n"));
    let plus = new[first..new.len() - last]
        .iter()
        .map(|line| format!("+{line}\n"));
    minus.chain(plus).collect()
}

const PLAN: &str = r#"// What I order.
(
  // The day before the fair.
  ordered: "2027-01-20",
  season: (
    last_frost: (date: "2027-05-14"), // looked up
    first_frost: (date: "2027-10-24"),
    planted: "2027-05-20", /* late */ method: potted,
    plants_lost: 6, // slugs
    curve: [0.5, 1.0],
  ),
  beds: [
    (name: "sea wall", length: "40ft", width: "4ft", spacing: "16in"), // the windy one

    // Behind the shed.
    (name: "shed", length: "10m", width: "80cm", spacing: "40cm", rows: Some(2)),
    (
      name: "byre", // old
      length: "20 m",
      width: "1.2m",
      spacing: "40cm"
    ),
  ],
  needs: [
    // The stall.
    (name: "stall", weeks: (33, 41), stems: 80, colours: ["warm", /* or */ "plum"]),
    (stems: 20, name: "early", weeks: (30, 32)),

    // Anna's day.
    (name: "wedding", stems: 45, weeks: (37, 37), use: r"event-focal"),
  ],
  // That is all.
)
// The end.
"#;

fn set(plan: &mut Plan, name: &str, text: &str) {
    let item = Item::named(plan, name).expect("a figure");
    *plan = item
        .set(plan, text, &crate::measure::day::Calendar::FILES)
        .expect("is taken");
}

#[test]
fn a_bed_is_changed_on_its_line_and_nowhere_else() {
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "sea wall", "rows=3")), @r#"
    -    (name: "sea wall", length: "40ft", width: "4ft", spacing: "16in"), // the windy one
    +    (name: "sea wall", length: "40ft", width: "4ft", spacing: "16in", rows: 3), // the windy one
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "shed", "rows=")), @r#"
    -    (name: "shed", length: "10m", width: "80cm", spacing: "40cm", rows: Some(2)),
    +    (name: "shed", length: "10m", width: "80cm", spacing: "40cm"),
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "byre", "rows=3 length=12m")), @r#"
    -      length: "20 m",
    -      width: "1.2m",
    -      spacing: "40cm"
    +      length: "12m",
    +      width: "1.2m",
    +      spacing: "40cm",
    +      rows: 3
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| plan.beds.swap(0, 2)), @r#"
    -    (name: "sea wall", length: "40ft", width: "4ft", spacing: "16in"), // the windy one
    -
    -    // Behind the shed.
    -    (name: "shed", length: "10m", width: "80cm", spacing: "40cm", rows: Some(2)),
    -    (
    -      name: "byre", // old
    -      length: "20 m",
    -      width: "1.2m",
    -      spacing: "40cm"
    -    ),
    +    (
    +      name: "byre", // old
    +      length: "20 m",
    +      width: "1.2m",
    +      spacing: "40cm"
    +    ),
    +    // Behind the shed.
    +    (name: "shed", length: "10m", width: "80cm", spacing: "40cm", rows: Some(2)),
    +    (name: "sea wall", length: "40ft", width: "4ft", spacing: "16in"), // the windy one
    +
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| drop(plan.beds.remove(1))), @r#"
    -    (name: "shed", length: "10m", width: "80cm", spacing: "40cm", rows: Some(2)),
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| {
        let mut bed = plan.beds[0].clone();
        bed.name = crate::variety::Text::new("new").expect("a name");
        plan.beds.push(bed);
    }), @r#"
    +    (
    +      name: "new",
    +      length: "40ft",
    +      width: "4ft",
    +      spacing: "16in",
    +    ),
    "#);
}

#[test]
fn a_need_is_changed_on_its_line_and_nowhere_else() {
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "stall", "90 33-40 colours=plum")), @r#"
    -    (name: "stall", weeks: (33, 41), stems: 80, colours: ["warm", /* or */ "plum"]),
    +    (name: "stall", weeks: (33, 40), stems: 90, colours: [/* or */ "plum"]),
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| drop(plan.needs.remove(0))), @r#"
    -    (name: "stall", weeks: (33, 41), stems: 80, colours: ["warm", /* or */ "plum"]),
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| drop(plan.needs.remove(2))), @r#"
    -    // Anna's day.
    -    (name: "wedding", stems: 45, weeks: (37, 37), use: r"event-focal"),
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| {
        let need = plan.needs.remove(2);
        plan.needs.insert(0, need);
    }), @r#"
    -    // The stall.
    -    (name: "stall", weeks: (33, 41), stems: 80, colours: ["warm", /* or */ "plum"]),
    -    (stems: 20, name: "early", weeks: (30, 32)),
    -
    -    // Anna's day.
    -    (name: "wedding", stems: 45, weeks: (37, 37), use: r"event-focal"),
    +    // Anna's day.
    +    (name: "wedding", stems: 45, weeks: (37, 37), use: r"event-focal"),
    +    // The stall.
    +    (name: "stall", weeks: (33, 41), stems: 80, colours: ["warm", /* or */ "plum"]),
    +    (stems: 20, name: "early", weeks: (30, 32)),
    +
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "wedding", "name=Anna")), @r#"
    -    (name: "wedding", stems: 45, weeks: (37, 37), use: r"event-focal"),
    +    (name: "Anna", stems: 45, weeks: (37, 37), use: r"event-focal"),
    "#);
}

#[test]
fn a_figure_of_the_season_is_changed_in_its_place() {
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "plants lost, %", "7")), @r#"
    -    plants_lost: 6, // slugs
    +    plants_lost: 7.0, // slugs
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "plants lost, %", "")), @r#"
    -    plants_lost: 6, // slugs
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "stems lost, %", "8")), @r#"
    +    stems_lost: 8.0,
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "rise to flower", "0.3,1")), @r#"
    -    curve: [0.5, 1.0],
    +    curve: [0.3, 1.0],
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "money", "300")), @r#"
    +  money: "300.00",
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "shortlist only", "yes")), @r#"
    +  shortlist_only: true,
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "started", "tubers")), @r#"
    -    planted: "2027-05-20", /* late */ method: potted,
    +    planted: "2027-05-20", /* late */ method: tubers,
    "#);
    insta::assert_snapshot!(changed(PLAN, &|plan| set(plan, "forms to try", "stellar")), @r#"
    +  try: [
    +    "stellar",
    +  ],
    "#);
}
