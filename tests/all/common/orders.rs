//! Orders to solve, drawn by a seed: invented, of the kinds that the search must be right on.

use trug::colour::Vocabulary;
use trug::form::RuleSet;
use trug::order::model::{Candidate, Demand, Model, Pack, STEM, Supplier, TryOut};
use trug::order::{Candidates, Plan};
use trug::variety::{IndexContext, Uses, Varieties};

/// The order with so many varieties more that serve nothing, and suppliers whose least orders and free
/// postage lie between these whole amounts, so that it may be worth while to fill an order up.
pub(crate) fn with_fillers(
    model: &Model,
    seed: u64,
    fillers: usize,
    worth: std::ops::Range<u64>,
    step: u64,
) -> Model {
    let mut random = fastrand::Rng::with_seed(seed);
    let mut model = model.clone();
    for supplier in &mut model.suppliers {
        supplier.least = random.u64(worth.clone()) * 100;
        supplier.free_over = Some(random.u64(worth.clone()) * 100);
    }
    for at in 0..fillers {
        model.varieties.push(Candidate {
            name: format!("filler {at}"),
            form: random.usize(0..FORMS),
            yields: vec![0; model.weeks],
            most_plants: Some(0),
            ..Candidate::default()
        });
        model.offers.push(Pack {
            variety: model.varieties.len() - 1,
            supplier: random.usize(0..model.suppliers.len()),
            price: random.u64(250..750) / step * step,
            tubers: 1,
            least: 0,
            most: random.u64(1..5),
        });
    }
    model.limit_packs();
    model
}

/// The grower's list and plan of the demo, and what they are read against.
pub(crate) struct Demo {
    pub(crate) rules: RuleSet,
    pub(crate) uses: Uses,
    pub(crate) words: Vocabulary,
    pub(crate) list: Varieties,
    pub(crate) plan: Plan,
}

impl Demo {
    pub(crate) fn read() -> Demo {
        let list = include_str!("../../../catalogue/varieties.ron");
        let plan = include_str!("../../../catalogue/order.ron");
        Demo {
            rules: RuleSet::embedded().remove(0),
            uses: Uses::embedded(),
            words: Vocabulary::embedded(),
            list: Varieties::read("varieties.ron", list).expect("the demo's list"),
            plan: Plan::read("order.ron", plan).expect("the demo's plan"),
        }
    }

    pub(crate) fn grounds(&self) -> IndexContext<'_> {
        let Demo {
            rules, uses, words, ..
        } = self;
        IndexContext {
            rules,
            uses,
            words,
            stems_a_plant: self.plan.season.usual_total(),
            season: None,
        }
    }
}

/// What an order to be drawn is like.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Kind {
    pub(crate) varieties: usize,
    pub(crate) weeks: usize,
    pub(crate) needs: usize,
    /// Whether needs ask for several varieties or forms and limit the share of one.
    pub(crate) diverse: bool,
    /// Whether the beds are mostly too small for the order that costs the least without them.
    pub(crate) tight: bool,
    /// What prices are multiples of, in hundredths.
    pub(crate) step: u64,
}

const FORMS: usize = 12;
const PACKS: [u64; 7] = [1, 1, 1, 3, 3, 5, 10];

/// An order of that kind.
pub(crate) fn drawn(seed: u64, kind: Kind) -> Model {
    let mut model = as_offered(seed, kind);
    model.limit_packs();
    model
}

/// The same with as many packs of each offer as may be bought, of use or not.
fn as_offered(seed: u64, kind: Kind) -> Model {
    let mut random = fastrand::Rng::with_seed(seed);
    let weeks = kind.weeks;
    let mut model = Model {
        weeks,
        ..Model::default()
    };
    for at in 0..2 {
        model.suppliers.push(Supplier {
            name: format!("supplier {at}"),
            postage: 26 * kind.step + at * 8 * kind.step,
            free_over: Some(30_000),
            least: 25_00,
        });
    }
    for at in 0..kind.needs {
        let start = random.usize(0..weeks / 2);
        let end = random.usize(start + weeks / 4..=weeks);
        let mut need = Demand {
            name: format!("need {at}"),
            stems: vec![0; weeks],
            each: STEM,
            varieties: 1,
            forms: 1,
            most_from_one: None,
        };
        need.stems[start..end].fill(random.u64(2..9) * 10 * STEM);
        if kind.diverse && random.bool() {
            need.varieties = random.u64(2..5);
        }
        if kind.diverse && random.bool() {
            need.most_from_one = Some(random.u64(30..60));
        }
        if kind.diverse && random.u8(0..4) == 0 {
            need.forms = 3;
        }
        model.needs.push(need);
    }
    for at in 0..kind.varieties {
        let early = random.u8(0..3) == 0;
        let start = if early {
            0
        } else {
            random.usize(0..=weeks / 6)
        };
        // Saleable stems of a season, a twentieth each of plants and of stems lost on the way.
        let season = random.u64(5..=12) * STEM * 76 / 100;
        let mut yields = vec![0; weeks];
        yields[start..].fill(season / (weeks - start) as u64);
        let mut serves: Vec<usize> = (0..kind.needs).filter(|_| random.u8(0..10) < 3).collect();
        if serves.is_empty() {
            serves.push(random.usize(0..kind.needs));
        }
        model.varieties.push(Candidate {
            name: format!("variety {at}"),
            form: random.usize(0..FORMS),
            on_hand: if random.u8(0..5) == 0 {
                random.u64(1..6)
            } else {
                0
            },
            yields,
            serves,
            merit: random.u64(300..1000),
            most_plants: None,
        });
        for supplier in 0..2 {
            if random.u8(0..10) < 6 {
                let tubers = PACKS[random.usize(0..PACKS.len())];
                let each = random.u64(300..750);
                // Larger packs cost less a tuber.
                let price = each * tubers * (100 - 2 * tubers) / 100;
                model.offers.push(Pack {
                    variety: at,
                    supplier,
                    price: price / kind.step * kind.step,
                    tubers,
                    least: 0,
                    most: if random.bool() {
                        random.u64(2..40)
                    } else {
                        100_000
                    },
                });
            }
        }
    }
    for form in 0..3 {
        let of_form = |at: &usize| model.varieties[*at].form == form;
        let varieties: Vec<usize> = (0..kind.varieties).filter(of_form).collect();
        if !varieties.is_empty() {
            model.trials.push(TryOut {
                name: format!("form {form}"),
                varieties,
                plants: 1,
            });
        }
    }
    if kind.tight {
        let wanted = |week: usize| model.needs.iter().map(|need| need.stems[week]).sum::<u64>();
        let peak = (0..weeks).map(wanted).max().unwrap_or(0);
        let each = 10 * STEM * 76 / 100 / weeks as u64;
        model.places = Some(peak / each * 82 / 100);
    }
    model
}

/// A plan whose seasons are drawn, the list that its varieties are of, and what of it can serve.
#[allow(dead_code)] // Tests have no use for it: it is large.
pub(crate) struct Planned {
    pub(crate) plan: Plan,
    pub(crate) list: Varieties,
    pub(crate) candidates: Candidates,
}

/// An order of that kind that is to be 80 % sure, of varieties whose stems are known, where frosts come when
/// they come: the beds hold so many in a hundred of what the kind has them hold.
#[allow(dead_code)]
pub(crate) fn planned(seed: u64, kind: Kind, beds: u64) -> Planned {
    let mut model = as_offered(seed, kind);
    model.places = model.places.map(|places| places * beds / 100);
    let plan = Plan::read("order.ron", LONG_SEASON).expect("a plan");
    let weeks: Vec<u8> = (FIRST_WEEK..).take(kind.weeks).collect();
    let variety = |one: &Candidate| {
        let most = one.yields.iter().max().copied().unwrap_or(0);
        let stems = most as f64 / STEM as f64;
        serde_json::json!({ "name": one.name, "stems_a_week": (stems * 100.0).round() / 100.0 })
    };
    let list: Vec<serde_json::Value> = model.varieties.iter().map(variety).collect();
    let list = serde_json::from_value(list.into()).expect("varieties");
    let list = Varieties::of(list).expect("names of their own");
    let mut first_cuts = Vec::new();
    for (one, variety) in model.varieties.iter_mut().zip(list.list()) {
        let start = one.yields.iter().position(|yields| *yields > 0);
        let first = AT_FULL_FLOWER + start.unwrap_or(0) as u32;
        one.yields = plan.season.gives(variety, first, &weeks);
        first_cuts.push(first);
    }
    let offered = model.offers.iter().map(|offer| offer.most).collect();
    model.limit_packs();
    Planned {
        candidates: Candidates {
            weeks,
            rows: (0..model.varieties.len()).collect(),
            first_cuts,
            offers: vec![0; model.offers.len()],
            offered,
            matches: vec![Vec::new(); model.varieties.len()],
            sure: vec![0.8; model.needs.len()],
            wholes: Vec::new(),
            aside: trug::order::SetAside::default(),
            notes: Vec::new(),
            model,
        },
        plan,
        list,
    }
}

/// From its first week on what was planted so many weeks before the last ramp is at full flower.
const FIRST_WEEK: u8 = 19;
const AT_FULL_FLOWER: u32 = 7;
const LONG_SEASON: &str = r#"(
  ordered: "2027-01-10",
  season: (
    last_frost: (risks: [(chance: 90, on: "2027-01-20"), (chance: 10, on: "2027-03-04")]),
    first_frost: (risks: [(chance: 10, on: "2027-11-08"), (chance: 50, on: "2027-11-20")]),
    planted: "2027-03-08", ramp: [0.4, 0.7, 1.0], plants_lost: 5.0, stems_lost: 10.0,
  ),
  // These are drawn.
  beds: [(name: "field", length: "100m", width: "1.2m", spacing: "400mm")],
  needs: [(name: "stall", stems: 1, weeks: (30, 31))],
)"#;
