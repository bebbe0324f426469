//! Lists and seedlings as growers write them, and what is other after a change.

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::plans::difference;
use crate::folder::text::kept::Holds;
use crate::folder::text::{read_records, record_again, write_records};
use crate::trial::Seedling;
use crate::variety::{Text, Variety};

/// The lines that are other after a change.
#[track_caller]
fn changed<T>(text: &str, edit: impl FnOnce(&mut Vec<T>)) -> String
where
    T: Serialize + DeserializeOwned + Send + PartialEq + std::fmt::Debug,
{
    let mut list: Vec<T> = read_records("f.ron", text).expect("reads");
    edit(&mut list);
    let written = write_records(&list).expect("writes");
    let change = Holds::Records(record_again::<T>).change(text, &written);
    let change = change.expect("is kept");
    assert_eq!(read_records("f.ron", &change.text), Ok(list));
    difference(text, &change.text)
}

const LIST: &str = r#"// Bought and raised.
[
  // From the fair.
  (name: "Haaf Bell", height: "3-4ft", diameters: ["4in", "4 1/4 in" /* wet */],
    offers: [
      (supplier: "Oar Bulbs", price: "4", pack: 1), // by post
      (supplier: "Ebb Nursery", pack: 3, price: "9.00"),
    ],
    on_hand: Some(2)),

  (
    name: "Ebb Kist", // mother's
    raiser: "Ebb Croft",
  ),
  (name: "Noust Lamp"), // to be keyed
]
"#;

#[test]
fn an_offer_of_a_variety_is_changed_in_its_place() {
    let price = changed::<Variety>(LIST, |list| {
        list[0].offers[1].price = "9.50".parse().expect("a price");
    });
    insta::assert_snapshot!(price, @r#"
    -      (supplier: "Ebb Nursery", pack: 3, price: "9.00"),
    +      (supplier: "Ebb Nursery", pack: 3, price: "9.50"),
    "#);
    let sold_out = changed::<Variety>(LIST, |list| list[0].offers[0].available = Some(0));
    insta::assert_snapshot!(sold_out, @r#"
    -      (supplier: "Oar Bulbs", price: "4", pack: 1), // by post
    +      (supplier: "Oar Bulbs", price: "4", pack: 1, available: 0), // by post
    "#);
    let dropped = changed::<Variety>(LIST, |list| drop(list[0].offers.remove(0)));
    insta::assert_snapshot!(dropped, @r#"
    -      (supplier: "Oar Bulbs", price: "4", pack: 1), // by post
    "#);
    let first = changed::<Variety>(LIST, |list| {
        let offers = list[0].offers.clone();
        list[1].offers = offers;
    });
    insta::assert_snapshot!(first, @r#"
    +    offers: [(supplier: "Oar Bulbs", price: "4.00", pack: 1), (supplier: "Ebb Nursery", price: "9.00", pack: 3)],
    "#);
}

#[test]
fn a_variety_is_added_dropped_and_noted_and_its_lengths_stay_in_their_units() {
    let added = changed::<Variety>(LIST, |list| {
        list.push(Variety::named(Text::new("Skerry Crust").expect("a name")));
    });
    insta::assert_snapshot!(added, @r#"
    +  (name: "Skerry Crust"),
    "#);
    let dropped = changed::<Variety>(LIST, |list| drop(list.remove(0)));
    insta::assert_snapshot!(dropped, @r#"
    -  // From the fair.
    -  (name: "Haaf Bell", height: "3-4ft", diameters: ["4in", "4 1/4 in" /* wet */],
    -    offers: [
    -      (supplier: "Oar Bulbs", price: "4", pack: 1), // by post
    -      (supplier: "Ebb Nursery", pack: 3, price: "9.00"),
    -    ],
    -    on_hand: Some(2)),
    "#);
    let measured = changed::<Variety>(LIST, |list| {
        list[0].diameters.push("11cm".parse().expect("a length"));
        list[0].height = "4-5ft".parse().ok();
    });
    insta::assert_snapshot!(measured, @r#"
    -  (name: "Haaf Bell", height: "3-4ft", diameters: ["4in", "4 1/4 in" /* wet */],
    +  (name: "Haaf Bell", height: "4ft to 5ft", diameters: ["4in", "4 1/4 in" /* wet */, "11cm"],
    "#);
    let noted = changed::<Variety>(LIST, |list| {
        list[1].notes = Text::new("late").ok();
        list[2].on_hand = Some(3);
    });
    insta::assert_snapshot!(noted, @r#"
    -  ),
    -  (name: "Noust Lamp"), // to be keyed
    +    notes: "late",
    +  ),
    +  (name: "Noust Lamp", on_hand: 3), // to be keyed
    "#);
}

const ROW: &str = r#"[
  (number: "26-001", sown: "2026-03-18", seed_parent: "Oar Breeze", row: "sea wall", place: 1),
  // Two in one pot.
  (number: "26-002", sown: "2026-03-18", seed_parent: "Oar Breeze", row: "sea wall", place: 2), // pale
  (number: "26-003", row: "sea wall", place: 3),
]
"#;

#[test]
fn a_seedling_is_corrected_on_its_line() {
    let parent = changed::<Seedling>(ROW, |row| {
        row[1].pollen_parent = "Noust Buoy".parse().expect("a parent");
        row[2].place = Some(4);
    });
    insta::assert_snapshot!(parent, @r#"
    -  (number: "26-002", sown: "2026-03-18", seed_parent: "Oar Breeze", row: "sea wall", place: 2), // pale
    -  (number: "26-003", row: "sea wall", place: 3),
    +  (number: "26-002", sown: "2026-03-18", seed_parent: "Oar Breeze", pollen_parent: "Noust Buoy", row: "sea wall", place: 2), // pale
    +  (number: "26-003", row: "sea wall", place: 4),
    "#);
    let dropped = changed::<Seedling>(ROW, |row| drop(row.remove(1)));
    insta::assert_snapshot!(dropped, @r#"
    -  (number: "26-002", sown: "2026-03-18", seed_parent: "Oar Breeze", row: "sea wall", place: 2), // pale
    "#);
}
