//! The facts of a label as they are to be set: how each looks, and how high they are together at any
//! size.

use crate::account::text::capitalised;
use crate::paper::{Measured, Printable, Style, Unprintable, Weight};
use crate::tag::about::About;
use crate::tag::flow::together;
use crate::tag::says::{Fact, Says};
use crate::tag::stock::Kind;

/// Form and price are set so much larger than the other facts.
const LARGE: f64 = 1.1;
/// Between two facts, as a share of a line.
const BREAK: f64 = 0.3;

/// The facts to be set: those in ordinary letters, and the small print.
pub(super) struct Facts {
    pub(super) body: Vec<Told>,
    pub(super) small: Vec<Told>,
}

/// A fact to be set, measured once.
pub(super) struct Told {
    text: Measured,
    /// How large its letters are beside others'.
    scale: f64,
}

/// A paragraph in its lines.
pub(super) type Paragraph = (Style, Vec<Printable>);

impl Facts {
    /// What a kind tells of a plant, those apart that are spared. The price of what is sold stands
    /// elsewhere.
    ///
    /// # Errors
    /// [`Unprintable`] where a letter cannot be set.
    pub(super) fn of(says: &Says, kind: &Kind, spared: &[About]) -> Result<Facts, Unprintable> {
        let elsewhere = |about: About| kind.sold && about == About::Price;
        let told = says.about(&kind.tells);
        let told = told.filter(|fact| !spared.contains(&fact.about) && !elsewhere(fact.about));
        let is_small = |fact: &&Fact| kind.small.tells.contains(&fact.about);
        let (small, body): (Vec<&Fact>, Vec<&Fact>) = told.partition(is_small);
        let body: Vec<Vec<Told>> = body
            .into_iter()
            .map(of_the_body)
            .collect::<Result<_, _>>()?;
        Ok(Facts {
            body: body.into_iter().flatten().collect(),
            small: of_the_foot(&small)?,
        })
    }
}

/// The form stands out; what it is worth does not.
fn of_the_body(fact: &Fact) -> Result<Vec<Told>, Unprintable> {
    let text = capitalised(&fact.text);
    Ok(match (fact.about, text.split_once(" (")) {
        (About::Form, Some((form, ground))) => {
            let ground = capitalised(ground.trim_end_matches(')'));
            vec![Told::large(form)?, Told::plain(&ground)?]
        }
        (About::Form | About::Price, _) => vec![Told::large(&text)?],
        (About::Grower, _) => vec![Told::bold(&text)?],
        _ => vec![Told::plain(&text)?],
    })
}

/// The seller alone on a line; all else runs on, sentence after sentence.
fn of_the_foot(small: &[&Fact]) -> Result<Vec<Told>, Unprintable> {
    let (seller, rest): (Vec<&Fact>, Vec<&Fact>) =
        small.iter().partition(|fact| fact.about == About::Grower);
    let ended = |fact: &Fact| match fact.text.ends_with(['.', '!', '?']) {
        true => fact.text.clone(),
        false => format!("{}.", fact.text),
    };
    let rest: Vec<String> = rest.into_iter().map(ended).collect();
    let rest = (!rest.is_empty()).then(|| Told::plain(&rest.join(" ")));
    let seller = seller.into_iter().map(|fact| Told::bold(&fact.text));
    seller.chain(rest).collect()
}

impl Told {
    fn plain(text: &str) -> Result<Told, Unprintable> {
        Told::of(text, Weight::Regular, 1.0)
    }

    fn bold(text: &str) -> Result<Told, Unprintable> {
        Told::of(text, Weight::Bold, 1.0)
    }

    fn large(text: &str) -> Result<Told, Unprintable> {
        Told::of(text, Weight::Bold, LARGE)
    }

    fn of(text: &str, weight: Weight, scale: f64) -> Result<Told, Unprintable> {
        let text = Measured::new(Printable::new(&together(text))?, weight);
        Ok(Told { text, scale })
    }

    /// Its letters where those of others are of so many points.
    fn style(&self, points: f64) -> Style {
        Style {
            weight: self.text.weight(),
            points: points * self.scale,
        }
    }
}

/// From the top of the first capitals to the foot of the last line, in mm; `None` where a word is wider
/// than a line.
pub(super) fn height(facts: &[Told], points: f64, width: f64) -> Option<f64> {
    let (mut height, mut above) = (0.0, None::<Style>);
    for fact in facts {
        let style = fact.style(points);
        let lines = fact.text.lines(style.points, width)?;
        height += above.map_or(style.capital(), |above| gap(above, style));
        height += style.line() * lines.saturating_sub(1) as f64;
        above = Some(style);
    }
    Some(height + above.map_or(0.0, Style::below))
}

/// The lines of every fact.
///
/// # Errors
/// [`Unprintable`] where a word is wider than a line.
pub(super) fn paragraphs(
    facts: &[Told],
    points: f64,
    width: f64,
) -> Result<Vec<Paragraph>, Unprintable> {
    let wrapped = |fact: &Told| {
        let style = fact.style(points);
        Ok((style, fact.text.wrapped(style.points, width)?))
    };
    facts.iter().map(wrapped).collect()
}

/// From the last line of a fact to the first of the next.
pub(super) fn gap(above: Style, below: Style) -> f64 {
    Style::regular((above.points + below.points) / 2.0).line() * (1.0 + BREAK)
}
