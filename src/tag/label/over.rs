//! What stands about the name on a label: for a buyer genus and price over it, and at the foot the
//! number of a copy.

use kurbo::Point;

use super::{GAP, Over, Printer, Zones};
use crate::paper::{Align, Item, Printable, Style, TextLine, Unprintable};
use crate::tag::about::About;
use crate::tag::says::Says;

/// From the foot of what stands over the name to its capitals, in mm: an accent on one has room.
const UNDER: f64 = 1.4;
/// The least points that genus and price shrink to.
const LEAST: f64 = 6.0;
/// The letters of a number, and how far it is from what stands over it, in mm.
const NUMBER: Style = Style::regular(7.0);
const OVER_NUMBER: f64 = 0.8;

impl Printer<'_> {
    /// What stands about the name; the room of the name, and of the facts where they are under it, lies
    /// between.
    ///
    /// # Errors
    /// In a sentence where it has no room.
    pub(super) fn over(&self, says: &Says, zones: &mut Zones) -> Result<Over, String> {
        let zone = &mut zones.title;
        let tally = self.numbered.then(|| {
            let base = zone.y1 - NUMBER.below();
            let at = Point::new(zone.x0, base);
            zone.y1 = base - NUMBER.capital() - OVER_NUMBER;
            (at, NUMBER)
        });
        let mut items = Vec::new();
        if self.kind.sold {
            let told = |error: Unprintable| error.to_string();
            let genus = Printable::new(&says.genus).map_err(told)?;
            let price = says.about(&self.kind.tells);
            let mut price = price.filter(|fact| fact.about == About::Price);
            let price = price.next().map(|fact| Printable::new(&fact.text));
            let price = price.transpose().map_err(told)?;
            let points = self.over_points(&genus, price.as_ref(), zone.width())?;
            let style = Style::regular(points);
            let base = self.first_base(style, zone.y0);
            items.push(TextLine::new(genus, style, (zone.x0, base)).into());
            items.extend(price.map(|price| {
                let line = TextLine::new(price, Style::bold(points), (zone.x1, base));
                Item::from(line.aligned(Align::Right))
            }));
            zone.y0 = base + style.below() + UNDER;
        }
        Ok(Over { items, tally })
    }

    /// The size at which genus and price stand on one line of so many mm.
    fn over_points(
        &self,
        genus: &Printable,
        price: Option<&Printable>,
        width: f64,
    ) -> Result<f64, String> {
        let points = self.kind.title.over;
        let (room, price_width) = match price {
            Some(price) => (width - GAP, price.width(Style::bold(points))),
            None => (width, 0.0),
        };
        let own = genus.width(Style::regular(points)) + price_width;
        let points = match own <= room {
            true => points,
            // A touch smaller, so that rounding makes it no wider again.
            false => points * room / own * (1.0 - 1e-9),
        };
        match points >= LEAST.min(self.kind.title.over) {
            true => Ok(points),
            false => Err(format!(
                "found {own:.0} mm of {:?}, expected what fits {room:.0} mm at {LEAST} points",
                [Some(genus), price]
                    .into_iter()
                    .flatten()
                    .map(Printable::as_str)
                    .collect::<Vec<_>>()
                    .join(" ")
            )),
        }
    }
}
