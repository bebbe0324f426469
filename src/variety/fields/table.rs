//! Every field of a variety: its word, its name, what it means and whose figure it is.

use crate::record::{Figure, Key};
use crate::variety::exchange::Field;

/// One field, or several alike.
#[derive(Debug)]
pub(super) struct Row {
    pub(super) field: Field,
    /// The word before `=` in a command.
    pub(super) word: &'static str,
    pub(super) group: &'static str,
    pub(super) name: &'static str,
    pub(super) means: &'static str,
    pub(super) figure: Figure,
}

const fn row(
    field: Field,
    word: &'static str,
    group: &'static str,
    name: &'static str,
    figure: Figure,
    means: &'static str,
) -> Row {
    Row {
        field,
        word,
        group,
        name,
        means,
        figure,
    }
}

use Figure::{Assumed, Chosen, Measured, Stated};

const LOOKS: &str = "Looks";
const OFFERS: &str = "Offers";
const OWN: &str = "Your own";
const MEASURED: &str = "Measured here";
const STATED: &str = "Stated by others";
const RIGHTS: &str = "Where it comes from";

/// The most used first. Those of one colour, and of one offer, follow each other on the slip.
#[rustfmt::skip] // A table reads by rows.
pub(super) const TABLE: [Row; 33] = [
    row(Field::Name, "name", "", "name", Chosen, "Its name, which no other variety of the list has."),
    row(Field::Form, "form", LOOKS, "form", Stated, "The form that it is said or seen to have."),
    row(Field::FormKnown, "form-known", LOOKS, "form known", Stated, "How the form is known."),
    row(Field::FormBy, "form-by", LOOKS, "form by", Stated, "Who says so: a supplier, a society's list, a person."),
    row(Field::Colour, "colour", LOOKS, "colour", Stated, "A colour of the bloom, the main one first; empty drops it."),
    row(Field::SecondColour, "part", LOOKS, "of the part", Stated, "Which part of the bloom shows that colour."),
    row(Field::Pattern, "pattern", LOOKS, "pattern", Stated, "How the colour lies on its part."),
    row(Field::Supplier, "supplier", OFFERS, "supplier", Stated, "Who offers it; empty drops the offer."),
    row(Field::Price, "price", OFFERS, "price a pack", Stated, "What the supplier asks for one pack, in your currency."),
    row(Field::Pack, "pack", OFFERS, "tubers a pack", Stated, "How many tubers are in a pack."),
    row(Field::Available, "available", OFFERS, "packs left", Stated, "Packs that the supplier still has; 0 is sold out, empty is unknown."),
    row(Field::Closes, "closes", OFFERS, "order by", Stated, "The last day on which the supplier takes an order."),
    row(Field::OnHand, "on-hand", OWN, "tubers on hand", Measured, "Tubers in your own store."),
    row(Field::Notes, "notes", OWN, "notes", Chosen, "Whatever you want to remember of it."),
    row(Field::Shortlist, "shortlist", OWN, "shortlist", Chosen, "Whether it is on your shortlist."),
    row(Field::ShortlistNote, "shortlist-note", OWN, "why it is there", Chosen, "Why it is on the shortlist; a note puts it there."),
    row(Field::Diameters, "measured-diameters", MEASURED, "diameters", Measured, "Across blooms that you measured, one each."),
    row(Field::PlantHeights, "measured-heights", MEASURED, "heights", Measured, "Of plants that you measured, one each."),
    row(Field::StemLengths, "measured-stems", MEASURED, "stem lengths", Measured, "Of cut stems that you measured, one each."),
    row(Field::Vase, "vase-days", MEASURED, "days in the vase", Measured, "How long a cut stem lasts: tested here, or stated where no stems are counted."),
    row(Field::VaseStems, "vase-stems", MEASURED, "stems tested", Measured, "How many stems were watched in the vase; empty where the days are only stated."),
    row(Field::Weather, "weather", MEASURED, "after weather", Measured, "Damaged of open blooms, counted after wind, rain or sun."),
    row(Field::StemsAWeek, "stems-a-week", MEASURED, "stems a week", Measured, "Saleable stems cut from one plant in a week at full flower."),
    row(Field::Bloom, "bloom", MEASURED, "traits seen", Measured, "What you saw of its bloom, as the Key page asks; the diameter stands by itself."),
    row(Field::Size, "size", STATED, "size", Stated, "The size word that it is sold under, where nobody noted by whom."),
    row(Field::Height, "height", STATED, "height", Stated, "Height of the plant, where nobody noted who states it."),
    row(Field::Stem, "stem", STATED, "stem length", Stated, "Length of a cut stem, where nobody noted who states it."),
    row(Field::Stated, "stated", STATED, "by whom", Stated, "What somebody states of it, each with who does."),
    row(Field::StemsAPlant, "stems-a-plant", STATED, "stems a plant", Assumed, "Saleable stems that one plant gives in a season."),
    row(Field::Foliage, "foliage", RIGHTS, "foliage", Stated, "Colour of the leaves."),
    row(Field::Raiser, "raiser", RIGHTS, "raiser", Stated, "Who raised it."),
    row(Field::Protected, "protected", RIGHTS, "protected", Stated, "Whether a breeder's right protects it."),
    row(Field::Licence, "licence", RIGHTS, "licence", Stated, "Your licence to multiply or sell it."),
];

impl Row {
    /// The fields of which there may be several, with those that follow it there.
    pub(super) fn repeats(&self) -> &'static [&'static str] {
        match self.field {
            Field::Colour => &["colour", "part", "pattern"],
            Field::Supplier => &["supplier", "price", "pack", "available", "closes"],
            _ => &[],
        }
    }

    /// Whether it is told with another, and there may be several.
    pub(super) fn is_of_several(&self) -> bool {
        matches!(
            self.field,
            Field::Colour
                | Field::SecondColour
                | Field::Pattern
                | Field::Supplier
                | Field::Price
                | Field::Pack
                | Field::Available
                | Field::Closes
        )
    }
}

/// The row of a field.
///
/// # Errors
/// The word, and those that there are.
pub(super) fn find(key: Key) -> Result<&'static Row, String> {
    let found = TABLE.iter().find(|row| row.word == key.word);
    let found = found.filter(|row| key.place == 0 || row.is_of_several());
    found.ok_or_else(|| {
        let words: Vec<&str> = TABLE.iter().map(|row| row.word).collect();
        format!(
            "found {key}, expected a field of a variety: {}",
            words.join(", ")
        )
    })
}
