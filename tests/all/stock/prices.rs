//! The price list as a grower writes it, and for programs that know nothing of us:
//! `tests/outside/prices_agree.py` holds its pages and its table against what `--json` says.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::common::grower::Grower;

/// The demo, and beside it names that a table or a page may stumble over.
fn seller() -> Grower {
    let grower = Grower::new();
    for (name, tubers) in [("=1+1", 3), ("Sill, \"the Old\"", 2), ("Åse's Høst", 5)] {
        let quoted = format!("'{}'", name.replace('\'', "'\\''"));
        grower.does(&format!(
            "trug variety add {quoted} protected=no colour=peach"
        ));
        grower.does(&format!(
            "trug stock note {quoted} date=2026-10-20 divided={tubers} price=3"
        ));
    }
    grower.does("trug settings set grower='Skerry Lane' place='Sea Wall Road' currency=kroner");
    grower
}

fn prices(grower: &Grower, words: &str) -> Value {
    let told = grower.does(&format!("trug stock prices --json {words}"));
    serde_json::from_str(&told).expect("one object")
}

#[test]
fn a_price_list_goes_to_programs_that_know_nothing_of_us() {
    let grower = seller();
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("prices");
    fs::create_dir_all(&folder).expect("a folder");
    for order in ["colour", "name"] {
        let of = |ending: &str| folder.join(format!("{order}.{ending}"));
        let object = prices(&grower, &format!("--by {order}"));
        let offers = object["offers"].as_array().expect("offers");
        // OK because the demo has some for sale, and the seller added three.
        assert!(offers.len() >= 6, "{object}");
        fs::write(of("json"), object.to_string()).expect("a file");
        for ending in ["csv", "pdf", "svg"] {
            let path = of(ending);
            let path = path.display();
            let told = grower.does(&format!(
                "trug stock prices --by {order} --replace --out '{path}'"
            ));
            assert!(
                told.contains("yours to check with your own authority"),
                "{told}"
            );
        }
    }
}

/// What is on the list is what the stock book has free; after a sale so many fewer, and none once all are sold.
#[test]
fn a_list_follows_the_stock_book() {
    let grower = seller();
    let of = |object: &Value| -> BTreeMap<String, u64> {
        let offers = object["offers"].as_array().expect("offers").iter();
        let one = |one: &Value| Some((one["plant"].as_str()?.to_string(), one["left"].as_u64()?));
        offers.filter_map(one).collect()
    };
    let book = grower.does("trug stock --json");
    let book: Value = serde_json::from_str(&book).expect("one object");
    let free = book["plants"].as_array().expect("plants").iter();
    let free =
        free.filter_map(|one| Some((one["plant"].as_str()?.to_string(), one["free"].as_u64()?)));
    let free: BTreeMap<String, u64> = free.filter(|one| one.1 > 0).collect();
    assert_eq!(of(&prices(&grower, "")), free);
    grower.does("trug stock note 24-001 date=2026-11-20 sold=4 price=5 to=market");
    assert_eq!(of(&prices(&grower, ""))["24-001"], free["24-001"] - 4);
    grower.does("trug stock note '=1+1' date=2026-11-20 sold=3 to=market");
    assert_eq!(of(&prices(&grower, "")).get("=1+1"), None);
}

/// What the grower's own order plants is not sold unawares.
#[test]
fn an_offer_of_what_the_order_counts_on_is_told() {
    let grower = Grower::new();
    let errors = |line: &str| {
        let output = grower.types(line);
        String::from_utf8_lossy(&output.stderr).into_owned()
    };
    assert!(!errors("trug stock prices").contains("may be sold"));
    // Of the eight that the list has on hand the order plants six.
    grower.does("trug stock note 'Ebb Harbour' date=2026-10-20 divided=8 price=4");
    let told = errors("trug stock prices");
    assert!(
        told.contains("8 of Ebb Harbour are offered, and by the order settled on")
            && told.contains("only 0 may be sold"),
        "{told}"
    );
    let object = prices(&grower, "");
    assert_eq!(object["counted_on"][0]["plant"], "Ebb Harbour");
}

/// A culled seedling and a protected variety without a licence are left out, and the reason is told to the
/// grower, never to a buyer.
#[test]
fn what_may_not_be_sold_stays_out_with_the_reason() {
    let grower = Grower::new();
    grower.does("trug stock note 24-010 date=2026-10-20 divided=6 price=3");
    grower.does("trug stock note 'Tangle Mitten' date=2026-10-20 divided=5");
    grower.does("trug stock note 'Ebb Harbour' date=2026-10-20 divided=4 keep=4");
    let output = grower.types("trug stock prices");
    let told = String::from_utf8_lossy(&output.stdout);
    let errors = String::from_utf8_lossy(&output.stderr);
    for (plant, why) in [
        ("24-010", "it is culled"),
        (
            "Tangle Mitten",
            "it is protected and no licence is recorded",
        ),
        ("Ebb Harbour", "none is free to sell: 4 here, 4 kept back"),
    ] {
        assert!(!told.contains(plant), "{told}");
        assert!(
            errors.contains(&format!("not for sale: {plant}: {why}")),
            "{errors}"
        );
    }
    let named = grower.types("trug stock prices 'Foam Dory'");
    let told = String::from_utf8_lossy(&named.stdout);
    let errors = String::from_utf8_lossy(&named.stderr);
    assert!(told.contains("nothing that is free to sell"), "{told}");
    assert!(
        errors.contains("Foam Dory: the stock book does not have it"),
        "{errors}"
    );
    // And nothing is written.
    grower.types("trug stock prices 'Foam Dory' --out list.pdf");
    assert!(!grower.here().join("list.pdf").exists());
}
