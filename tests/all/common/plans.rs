//! A grower's list and order, drawn: small, and with all that a plan can ask for.

use super::shipped::Shipped;
use serde_json::{Value, json};
use trug::order::{ListContext, Plan};
use trug::variety::{ColourNote, Index, IndexContext, Varieties, Variety};

/// A list and a plan.
pub(crate) struct Drawn {
    pub(crate) list: Varieties,
    pub(crate) plan: Plan,
}

const FORMS: [&str; 4] = ["ball", "pompon", "single", "collarette"];
/// Forms that no need asks for: only what needs any form takes them, and what fills an order up.
const OTHERS: [&str; 2] = ["stellar", "laciniated"];
const COLOURS: [&str; 5] = ["plum", "wine", "white", "ivory", "apricot"];
const USES: [&str; 3] = ["market-bunch", "worn", "pollinators"];
const SUPPLIERS: [&str; 3] = ["Oar Bulbs", "Ebb Nursery", "Houb Tubers"];
/// The order goes out on the first day; some offers closed before.
const ORDERED: &str = "2027-01-15";
const CLOSES: [&str; 4] = ["2026-12-31", "2027-01-14", "2027-01-15", "2027-02-28"];

/// The list and the plan of a seed.
pub(crate) fn drawn(seed: u64) -> Drawn {
    let mut dice = Dice(fastrand::Rng::with_seed(seed));
    let list: Vec<Value> = (0..dice.0.usize(12..17))
        .map(|at| variety(at, &mut dice))
        .collect();
    let plan = plan(&list, &mut dice);
    let list: Vec<Variety> = serde_json::from_value(list.into()).expect("varieties");
    let plan: Plan = serde_json::from_value(plan).expect("a plan");
    assert_eq!(plan.problems(), Vec::<String>::new(), "{seed}");
    Drawn {
        list: Varieties::of(list).expect("names of their own"),
        plan,
    }
}

/// What the list says of each variety (in its order) where a need asks: its fitness for each use, null
/// where nothing is known, and how far each of its colours is from each of the need's.
pub(crate) fn facts(drawn: &Drawn) -> Value {
    read(drawn, |against| facts_of(drawn, against))
}

/// The plan's list and what it is read against, for `then`.
pub(crate) fn read<T>(drawn: &Drawn, then: impl FnOnce(ListContext<'_>) -> T) -> T {
    let shipped = Shipped::new();
    let grounds = shipped.context(drawn.plan.season.usual_total());
    then(ListContext {
        list: &drawn.list,
        index: &Index::new(&drawn.list, grounds),
        grounds,
        sure: trug::order::USUALLY_SURE,
    })
}

fn facts_of(drawn: &Drawn, against: ListContext<'_>) -> Value {
    let (list, plan, index) = (&drawn.list, &drawn.plan, against.index);
    let IndexContext { uses, words, .. } = against.grounds;
    let fitness = |id: &str| -> Vec<Option<f64>> {
        let at = uses.find(id).expect("a use");
        (0..list.len()).map(|row| index.fitness(row, at)).collect()
    };
    // By variety, then colour: part, pattern and how far it is from each colour that is asked for.
    let shades = |need: &trug::order::Need| -> Value {
        let targets: Vec<_> = { need.colours.iter() }
            .map(|colour| words.target(colour).expect("a colour"))
            .collect();
        let colour = |note: &ColourNote| {
            let lab = note.colour.target(words).expect("a colour").centre;
            let apart: Vec<f64> = targets.iter().map(|one| one.distance(lab)).collect();
            json!({ "part": note.part.word(), "pattern": note.pattern.word(), "apart": apart })
        };
        let of = |one: &Variety| -> Vec<Value> { one.colours.iter().map(colour).collect() };
        list.list().iter().map(of).collect()
    };
    let asked = plan.needs.iter().filter_map(|need| need.for_use.as_deref());
    let uses = USES.into_iter().chain(asked);
    let fitness = uses.map(|id| (id.to_string(), json!(fitness(id))));
    let coloured = plan.needs.iter().filter(|need| !need.colours.is_empty());
    let shades = coloured.map(|need| (need.name.to_string(), shades(need)));
    json!({
        "fitness": serde_json::Map::from_iter(fitness),
        "shades": serde_json::Map::from_iter(shades),
    })
}

struct Dice(fastrand::Rng);

impl Dice {
    fn in_100(&mut self, chance: u8) -> bool {
        self.0.u8(0..100) < chance
    }

    fn one<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.0.usize(0..of.len())]
    }

    fn some(&mut self, of: &[&'static str], most: usize) -> Vec<&'static str> {
        let mut some = of.to_vec();
        self.0.shuffle(&mut some);
        some.truncate(self.0.usize(1..=most));
        some
    }

    /// Money in steps of a quarter, now and then to the hundredth.
    fn money(&mut self, from: u64, to: u64) -> String {
        let step = if self.in_100(20) { 1 } else { 25 };
        let hundredths = self.0.u64(from * 100 / step..=to * 100 / step) * step;
        format!("{}.{:02}", hundredths / 100, hundredths % 100)
    }
}

fn variety(at: usize, dice: &mut Dice) -> Value {
    // The last ones of a list are cheap and of forms that are seldom asked for.
    let other = at % 3 == 2;
    let form = dice.one(if other { &OTHERS } else { &FORMS });
    let mut one = json!({
        "name": format!("Skerry {}", (b'A' + at as u8) as char),
        "form": { "id": form, "known": "keyed" },
        "colours": [{ "colour": dice.one(&COLOURS), "part": "main", "pattern": "self" }],
        "stem": "500mm",
    });
    // Drawn apart, so that all else is as it was before.
    let mut apart = Dice(dice.0.clone());
    if apart.in_100(50) {
        let pattern = apart.one(&["bicolour", "blend", "tipped", "flecked"]);
        let part = apart.one(&["second", "second", "reverse", "centre"]);
        let colour = apart.one(&COLOURS);
        let second = json!({ "colour": colour, "part": part, "pattern": pattern });
        one["colours"].as_array_mut().expect("a list").push(second);
    }
    match dice.0.u8(0..4) {
        0 => one["stems_a_plant"] = dice.0.u32(5..13).into(),
        1 => one["stems_a_week"] = (f64::from(dice.0.u32(8..20)) / 10.0).into(),
        _ => {}
    }
    if dice.in_100(30) {
        one["on_hand"] = dice.0.u32(1..6).into();
    }
    if dice.in_100(70) {
        one["shortlist"] = json!({});
    }
    let mut offers = Vec::new();
    for supplier in SUPPLIERS {
        if !dice.in_100(70) {
            continue;
        }
        let pack = [1, 1, 3, 5][dice.0.usize(0..4)];
        let (from, to) = if other { (1, 6) } else { (2 * pack, 6 * pack) };
        let mut offer =
            json!({ "supplier": supplier, "price": dice.money(from, to), "pack": pack });
        if dice.in_100(30) {
            offer["available"] = dice.0.u32(0..5).into();
        }
        if dice.in_100(30) {
            offer["closes"] = dice.one(&CLOSES).into();
        }
        offers.push(offer);
    }
    one["offers"] = offers.into();
    one
}

fn plan(list: &[Value], dice: &mut Dice) -> Value {
    let mut plan = json!({
        "ordered": ORDERED,
        "season": season(list, dice),
        "beds": [
            { "name": "sea wall", "length": format!("{}mm", dice.0.u32(20..60) * 400), "width": "1200mm", "spacing": "400mm" },
            { "name": "byre end", "length": "2m", "width": "900mm", "spacing": "300mm", "rows": 2 },
        ],
        "storage_kept": ([100.0, 80.0, 50.0][dice.0.usize(0..3)]),
    });
    let mut suppliers = Vec::new();
    // The last one has no terms in some plans.
    for supplier in &SUPPLIERS[..dice.0.usize(2..=3)] {
        let mut terms = json!({ "name": supplier, "postage": dice.money(0, 9) });
        if dice.in_100(85) {
            terms["least"] = dice.money(15, 60).into();
        }
        if dice.in_100(80) {
            terms["free_over"] = dice.money(25, 90).into();
        }
        suppliers.push(terms);
    }
    plan["suppliers"] = suppliers.into();
    plan["needs"] = (0..dice.0.usize(1..=3)).map(|at| need(at, dice)).collect();
    if dice.in_100(50) {
        plan["money"] = dice.money(25, 120).into();
    }
    if dice.in_100(25) {
        plan["try"] =
            vec![dice.one(&[FORMS, [OTHERS[0], OTHERS[1], "ball", "single"]].concat())].into();
    }
    if dice.in_100(15) {
        plan["shortlist_only"] = true.into();
    }
    let open = |offer: &Value| {
        let closes = offer["closes"].as_str().unwrap_or("9999");
        closes >= ORDERED && offer["available"].as_u64().unwrap_or(9) >= 2
    };
    let of = |one: &Value| {
        let offer = one["offers"].as_array()?.iter().find(|offer| open(offer))?;
        Some((one["name"].clone(), offer["supplier"].clone()))
    };
    if let Some((variety, supplier)) = list.iter().find_map(of).filter(|_| dice.in_100(30)) {
        let packs = dice.0.u32(0..3);
        plan["fixed"] = json!([{ "variety": variety, "supplier": supplier, "packs": packs }]);
    }
    plan
}

fn season(list: &[Value], dice: &mut Dice) -> Value {
    let planted = format!("2027-05-{:02}", dice.0.u32(1..16));
    let counted: Vec<Value> = (list.iter())
        .filter_map(|one| {
            if !dice.in_100(25) {
                return None;
            }
            let first = dice.0.u32(30..36);
            let stems: Vec<(u32, u32)> =
                (first..42).map(|week| (week, dice.0.u32(0..12))).collect();
            // Of a season that was planted on the same day, so that nothing is shifted.
            Some(json!({ "variety": one["name"], "planted": planted, "plants": dice.0.u32(3..9), "stems": stems }))
        })
        .collect();
    let mut season = json!({
        "last_frost": { "date": "2027-05-10" },
        "first_frost": { "date": format!("2027-10-{:02}", dice.0.u32(1..29)) },
        "planted": planted,
        "plants_lost": ([0.0, 5.0, 12.5][dice.0.usize(0..3)]),
        "stems_lost": ([0.0, 10.0, 20.0][dice.0.usize(0..3)]),
        "first_cuts": [
            { "of": [list[0]["name"]], "weeks": dice.0.u32(8..12) },
            { "of": [dice.one(&FORMS), dice.one(&FORMS)], "weeks": dice.0.u32(8..12) },
        ],
        "counted": counted,
    });
    if dice.in_100(50) {
        season["method"] = "potted".into();
    }
    if dice.in_100(50) {
        season["weeks_to_first_cut"] = dice.0.u32(8..12).into();
    }
    match dice.0.u8(0..3) {
        0 => season["stems_a_plant"] = dice.0.u32(5..13).into(),
        1 => season["stems_a_week"] = (f64::from(dice.0.u32(8..25)) / 10.0).into(),
        _ => {}
    }
    if dice.in_100(50) {
        season["ramp"] = json!([0.25, 0.5, 0.9, 1.0]);
    }
    season
}

fn need(at: usize, dice: &mut Dice) -> Value {
    let first = dice.0.u32(33..38);
    let stems = dice.0.u32(8..30);
    let mut need = json!({
        "name": (["quay stall", "lifeboat day", "chapel"][at]),
        "stems": stems,
        "weeks": [first, (first + dice.0.u32(0..4)).min(39)],
    });
    let mut most_forms = FORMS.len();
    match dice.0.u8(0..4) {
        0 => {
            let forms = dice.some(&FORMS, 3);
            most_forms = forms.len();
            need["forms"] = forms.into();
        }
        1 => {
            need["use"] = dice.one(&USES).into();
            if dice.in_100(50) {
                need["fitness"] = 0.6.into();
            }
        }
        2 => {
            need["colours"] = dice.some(&COLOURS, 2).into();
            let mut apart = Dice(dice.0.clone());
            if apart.in_100(60) {
                need["colour_by"] = apart.one(&["mostly", "main", "any", "every"]).into();
            }
            if dice.in_100(50) {
                need["within"] = 15.0.into();
            }
        }
        _ => {}
    }
    let each = dice.0.u32(1..4);
    if dice.in_100(35) && stems >= 3 * each {
        need["varieties"] = dice.0.u32(2..=3).into();
        need["each"] = each.into();
    }
    if dice.in_100(25) && stems >= 3 * each {
        need["different_forms"] = dice.0.usize(2..=2).min(most_forms).into();
        need["each"] = each.into();
    }
    // No less than each must give.
    let share = dice.0.u32(35..80);
    if dice.in_100(30) && stems * share >= 100 * each {
        need["most_from_one"] = share.into();
    }
    need
}
