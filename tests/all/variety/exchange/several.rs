//! Several of one: colours in one cell, rows of one name, spellings of one word.

use trug::colour::{Part, Pattern};
use trug::variety::Varieties;

use super::imported;

fn read(csv: &str) -> (trug::variety::exchange::Import, Varieties) {
    imported(csv.as_bytes(), &Varieties::default())
}

#[test]
fn several_colours_in_one_cell_are_read_as_they_are_written() {
    use Part::{Centre, Main, Second};
    use Pattern::{Blend, SelfColoured, Tipped};
    for (cell, colours) in [
        (
            "red, white",
            &[("red", Main, SelfColoured), ("white", Second, SelfColoured)][..],
        ),
        (
            "plum/wine",
            &[("plum", Main, SelfColoured), ("wine", Second, SelfColoured)],
        ),
        (
            "pink and cream",
            &[
                ("pink", Main, SelfColoured),
                ("cream", Second, SelfColoured),
            ],
        ),
        (
            "red & white",
            &[("red", Main, SelfColoured), ("white", Second, SelfColoured)],
        ),
        (
            "plum with a white tip",
            &[("plum", Main, Tipped), ("white", Second, Tipped)],
        ),
        (
            "white-tipped plum",
            &[("plum", Main, Tipped), ("white", Second, Tipped)],
        ),
        (
            "pink and cream blend with a yellow eye",
            &[
                ("pink", Main, Blend),
                ("cream", Second, Blend),
                ("yellow", Centre, SelfColoured),
            ],
        ),
        ("Lav", &[("lavender", Main, SelfColoured)]),
    ] {
        let (import, list) = read(&format!("name,colour\nHaaf Bell,\"{cell}\"\n"));
        assert!(
            import.is_whole(),
            "{cell}: {:?} {:?}",
            import.bad,
            import.unknown
        );
        let found = &list.list()[0].colours;
        let found: Vec<_> = found
            .iter()
            .map(|one| (one.colour.to_string(), one.part, one.pattern))
            .collect();
        let wanted: Vec<_> = colours
            .iter()
            .map(|(colour, part, pattern)| (colour.to_string(), *part, *pattern))
            .collect();
        assert_eq!(found, wanted, "{cell}");
    }
}

#[test]
fn an_unknown_word_is_told_alone_with_what_may_be_meant_best_first() {
    for (heading, cell, word, near) in [
        ("colour", "plumm/wine", "plumm", "plum"),
        (
            "colour",
            "red tipped white",
            "red tipped white",
            "red (main, tipped); white (second, tipped)",
        ),
        (
            "form",
            "dinner plate",
            "dinner plate",
            "informal-decorative",
        ),
        ("form", "wtaerlily", "wtaerlily", "waterlily"),
        ("form", "Decorative", "Decorative", "formal-decorative"),
        ("size", "smal", "smal", "small"),
        ("foliage", "brnze", "brnze", "bronze"),
        ("pattern", "tiped", "tiped", "tipped"),
    ] {
        let (import, _) = read(&format!("name,{heading}\nHaaf Bell,{cell}\n"));
        let unknown = &import.unknown[0];
        assert_eq!(
            (unknown.word.as_str(), import.unknown.len()),
            (word, 1),
            "{cell}"
        );
        assert_eq!(unknown.kind.word(), heading);
        assert_eq!(unknown.near[0], near, "{cell}: {:?}", unknown.near);
    }
}

#[test]
fn forms_sizes_and_leaves_are_read_as_the_trade_spells_them() {
    let rows = [
        ("Min. Ball", "miniature-ball"),
        ("water lily", "waterlily"),
        ("collerette", "collarette"),
        ("Semi Cactus", "semi-cactus"),
        ("semicactus", "semi-cactus"),
        ("Pom Pom", "pompon"),
        ("Inf. Dec.", "informal-decorative"),
    ];
    for (spelt, form) in rows {
        let (import, list) = read(&format!(
            "name,form,size,leaf,pattern,colour\nHaaf Bell,{spelt},mini,Bronzy,Bi-color,red\n"
        ));
        assert!(
            import.is_whole(),
            "{spelt}: {:?} {:?}",
            import.bad,
            import.unknown
        );
        let variety = &list.list()[0];
        assert_eq!(
            variety.form.as_ref().map(|one| one.id.as_str()),
            Some(form),
            "{spelt}"
        );
        assert_eq!(variety.size.as_deref(), Some("miniature"));
        assert_eq!(variety.foliage.map(|one| one.word()), Some("bronze"));
        assert_eq!(variety.colours[0].pattern, Pattern::Bicolour);
    }
}

#[test]
fn two_rows_of_one_variety_are_one_record_with_the_offers_of_both() {
    let csv = "name,form,height,price,pack,supplier,notes\n\
        Haaf Bell,ball,90cm,4.50,3,Oar Bulbs,early\n\
        Ebb Oar,pompon,,5,1,Oar Bulbs,\n\
        HAAF BELL,,90cm,3.10,1,Ness Tubers,strong\n";
    let (import, list) = read(csv);
    assert!(import.is_whole(), "{:?}", import.bad);
    assert_eq!((import.rows, import.new.len(), list.len()), (3, 2, 2));
    let bell = &list.list()[0];
    let sold: Vec<String> = bell
        .offers
        .iter()
        .map(|one| one.supplier.to_string())
        .collect();
    assert_eq!(sold, ["Oar Bulbs", "Ness Tubers"]);
    assert_eq!(bell.notes.as_deref(), Some("early; strong"));
    let (again, _) = imported(csv.as_bytes(), &list);
    assert_eq!((again.changed.len(), again.same), (0, 2));
}

#[test]
fn rows_of_one_name_that_contradict_each_other_are_told_cell_by_cell() {
    let csv = "name,form,height,price,pack,supplier\n\
        Haaf Bell,ball,90cm,4.50,3,Oar Bulbs\n\
        Haaf Bell,pompon,1m,5,3,Oar Bulbs\n\
        Haaf Bell,ball,,3.10,1,Ness Tubers\n";
    let (import, list) = read(csv);
    assert_eq!((import.bad.len(), import.left_out), (1, 1));
    let told = &import.bad[0].told;
    for part in [
        "form: found \"pompon\", but line 2 of the same name says \"ball\", expected the same",
        "height: found \"1m\", but line 2",
        "offers: found \"Oar Bulbs: 3 for 5.00\", but line 2",
    ] {
        assert!(told.contains(part), "{part} is not in {told}");
    }
    // The rows that fit make the record.
    assert_eq!(list.list()[0].offers.len(), 2);
    assert_eq!(
        list.list()[0].form.as_ref().map(|one| one.id.as_str()),
        Some("ball")
    );
}
