//! A list of any length, the same each time: for scale and for properties, not for its looks.

use std::num::NonZeroU32;

use trug::colour::{Part, Pattern, Vocabulary};
use trug::form::RuleSet;
use trug::measure::{Exact, Length};
use trug::variety::{
    ColourNote, Days, Extent, Foliage, FormKnown, FormNote, Money, Offer, Shortlisted, Text,
    Varieties, Variety, VaseLife, Weather, WeatherKind,
};

/// Splitmix64: a small, well-known generator (Steele, Lea & Flood, OOPSLA 2014).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, n: u64) -> u64 {
        self.roll() % n
    }

    fn in_100(&mut self, percent: u64) -> bool {
        self.below(100) < percent
    }

    fn of<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[self.below(list.len() as u64) as usize]
    }
}

const STARTS: [&str; 24] = [
    "Skerry", "Noust", "Haaf", "Ebb", "Oar", "Foam", "Tangle", "Taing", "Houb", "Wrack", "Wick",
    "Holm", "Stack", "Burra", "Fethal", "Lunna", "Mavis", "Norrin", "Orfa", "Quarff", "Runa",
    "Sulla", "Tronda", "Vidlin",
];
const FIRSTS: [&str; 20] = [
    "Am", "Bel", "Cor", "Dun", "Ev", "Fal", "Gar", "Hel", "Ist", "Jor", "Kel", "Lor", "Mir", "Nor",
    "Ol", "Per", "Quen", "Ros", "Sel", "Tor",
];
const MIDDLES: [&str; 20] = [
    "a", "an", "bra", "da", "el", "fi", "gor", "i", "ka", "le", "mo", "na", "o", "pi", "ra", "si",
    "ta", "u", "ve", "wy",
];
const LASTS: [&str; 20] = [
    "ba", "cel", "dor", "en", "fay", "gle", "ha", "ine", "jay", "kin", "lan", "mer", "nette", "on",
    "pel", "que", "ric", "sen", "tide", "vane",
];

fn text(text: &str) -> Text {
    Text::new(text).expect("a plain text")
}

fn mm(mm: u64) -> Extent {
    Extent::try_from(Length::from_mm(Exact::whole(mm as i64))).expect("a length")
}

/// `count` varieties, at most 192,000, under the first embedded rule set.
pub(crate) fn varieties(count: usize) -> Varieties {
    assert!(count <= 192_000, "the names run out");
    let rules = &RuleSet::embedded()[0];
    let words = Vocabulary::embedded();
    let mut dice = Dice(7);
    let mut list = Varieties::default();
    for number in 0..count {
        // Names go round all parts, so that neighbours differ and none comes twice.
        let at = (number * 77_773) % 192_000;
        let (start, rest) = (at % 24, at / 24);
        let name = format!(
            "{} {}{}{}",
            STARTS[start],
            FIRSTS[rest % 20],
            MIDDLES[rest / 20 % 20],
            LASTS[rest / 400]
        );
        let variety = variety(&name, STARTS[start], &mut dice, rules, &words);
        list.insert(number, variety).expect("each name once");
    }
    list
}

fn variety(
    name: &str,
    start: &str,
    dice: &mut Dice,
    rules: &RuleSet,
    words: &Vocabulary,
) -> Variety {
    let mut one = Variety::named(text(name));
    let form = dice.of(&rules.forms);
    let least = form.diameter.low.to_f64() as u64 + 2;
    let diameter = match form.diameter.high.to_f64() as u64 {
        high if high < 100 => least.max(high - dice.below(high - least.min(high - 1))),
        _ => least.max(55) + dice.below(160),
    };
    one.raiser = dice
        .in_100(90)
        .then(|| text(&format!("{start} {}", dice.below(12))));
    one.form = dice.in_100(97).then(|| FormNote {
        id: text(&form.id),
        known: *dice.of(&[FormKnown::Stated, FormKnown::Keyed, FormKnown::Guessed]),
        by: None,
    });
    one.size = dice.in_100(80).then(|| text(&dice.of(&rules.size_words).0));
    if dice.in_100(40) {
        one.diameters = (0..=dice.below(4))
            .map(|_| mm(diameter + dice.below(4)))
            .collect();
    }
    for part in [Part::Main, Part::Second, Part::Centre]
        .into_iter()
        .take(1 + dice.below(3) as usize)
    {
        let colour = match dice.in_100(80) {
            true => dice.of(words.words()).word.clone(),
            false => format!("#{:06x}", dice.below(1 << 24)),
        };
        one.colours.push(ColourNote {
            colour: text(&colour).into(),
            part,
            pattern: *dice.of(&Pattern::ALL),
        });
    }
    one.height = dice
        .in_100(80)
        .then(|| mm(300 + 10 * dice.below(120)).into());
    one.stem = dice
        .in_100(60)
        .then(|| mm(200 + 10 * dice.below(50)).into());
    one.foliage = dice.in_100(80).then(|| *dice.of(&Foliage::ALL));
    one.vase = dice.in_100(60).then(|| VaseLife {
        days: Days::try_from(2.0 + dice.below(80) as f64 / 10.0).expect("days"),
        stems: NonZeroU32::new(dice.below(12) as u32),
    });
    if dice.in_100(20) {
        let open = 6 + dice.below(14) as u32;
        let damaged = dice.below(u64::from(open)) as u32;
        one.weather.push(Weather {
            kind: WeatherKind::Wind,
            damaged,
            open,
        });
    }
    one.on_hand = dice.in_100(40).then(|| dice.below(5) as u32);
    for supplier in 0..dice.below(3) {
        one.offers.push(Offer {
            supplier: text(&format!("Supplier {}", (supplier + dice.below(10)) % 10)),
            price: Money::hundredths(250 + 25 * dice.below(40)),
            pack: NonZeroU32::new(1 + dice.below(5) as u32).expect("over 0"),
            available: dice.in_100(50).then(|| dice.below(30) as u32),
            closes: None,
        });
    }
    one.protected = dice.in_100(50).then(|| dice.in_100(5));
    one.shortlist = dice.in_100(1).then(Shortlisted::default);
    one
}
