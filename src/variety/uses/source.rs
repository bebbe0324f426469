//! The table of uses as its file has it, before it is checked.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::want::{Curve, Expected, Likes, Quantity, Want, Wanted};

/// The most that one want may weigh: a thousand times another is that one alone.
pub(super) const MOST_WEIGHT: f64 = 1000.0;
/// The most of any figure, in millimetres, days or shares: no plant is taller than 10 m.
pub(super) const MOST_FIGURE: f64 = 10_000.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Source<'a> {
    pub(super) weighs: WeighsSource,
    #[serde(default)]
    pub(super) lasting: Option<f64>,
    #[serde(borrow)]
    pub(super) forms: Vec<FormSource<'a>>,
    #[serde(borrow)]
    pub(super) uses: Vec<UseSource<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WeighsSource {
    pub(super) diameter: f64,
    pub(super) stem: f64,
    pub(super) vase: f64,
    pub(super) stands: f64,
    pub(super) height: f64,
    pub(super) stated: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FormSource<'a> {
    #[serde(borrow)]
    pub(super) of: Vec<&'a str>,
    #[serde(default)]
    pub(super) centre: Option<String>,
    #[serde(default)]
    pub(super) diameter: Option<f64>,
    #[serde(default)]
    pub(super) stem: Option<f64>,
    #[serde(default)]
    pub(super) vase: Option<f64>,
    #[serde(default)]
    pub(super) stands: Option<f64>,
    #[serde(default)]
    pub(super) height: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct UseSource<'a> {
    #[serde(borrow)]
    pub(super) id: &'a str,
    pub(super) name: String,
    pub(super) means: String,
    #[serde(default)]
    pub(super) caution: Option<String>,
    #[serde(default)]
    pub(super) sells: Option<String>,
    #[serde(default)]
    pub(super) visited: Option<String>,
    pub(super) wants: Vec<WantSource>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WantSource {
    pub(super) of: OfSource,
    pub(super) weight: f64,
    #[serde(default)]
    pub(super) likes: BTreeMap<String, f64>,
    #[serde(default)]
    pub(super) others: Option<f64>,
    #[serde(default)]
    pub(super) curve: Vec<(f64, f64)>,
}

#[derive(Deserialize, Clone, Copy, PartialEq)]
#[serde(rename_all = "lowercase")]
pub(super) enum OfSource {
    Form,
    Centre,
    Diameter,
    Stem,
    Vase,
    Stands,
    Height,
}

impl FormSource<'_> {
    pub(super) fn expected(&self) -> Expected {
        Expected {
            centre: self.centre.clone(),
            numbers: [
                self.diameter,
                self.stem,
                self.vase,
                self.stands,
                self.height,
            ],
        }
    }
}

impl WantSource {
    pub(super) fn want(self) -> Result<Want, String> {
        if !(self.weight > 0.0 && self.weight <= MOST_WEIGHT) {
            return Err(format!(
                "found weight {}, expected one over 0 and up to {MOST_WEIGHT}",
                self.weight
            ));
        }
        let shares = self
            .likes
            .values()
            .chain(&self.others)
            .chain(self.curve.iter().map(|(_, y)| y));
        if let Some(share) = shares
            .into_iter()
            .find(|share| !(0.0..=1.0).contains(*share))
        {
            return Err(format!("found {share}, expected a share from 0 to 1"));
        }
        let quantity = match self.of {
            OfSource::Form | OfSource::Centre => {
                let Some(others) = self.others.filter(|_| self.curve.is_empty()) else {
                    return Err(
                        "expected `likes` and `others` for form and centre, and no `curve`".into(),
                    );
                };
                let likes = Likes {
                    named: self.likes,
                    others,
                };
                let of = match self.of {
                    OfSource::Form => Wanted::Form(likes),
                    _ => Wanted::Centre(likes),
                };
                return Ok(Want {
                    weight: self.weight,
                    of,
                });
            }
            OfSource::Diameter => Quantity::Diameter,
            OfSource::Stem => Quantity::Stem,
            OfSource::Vase => Quantity::Vase,
            OfSource::Stands => Quantity::Stands,
            OfSource::Height => Quantity::Height,
        };
        let rising = self.curve.windows(2).all(|pair| pair[0].0 < pair[1].0);
        let finite = { self.curve.iter() }.all(|point| point.0.abs() <= MOST_FIGURE);
        let alone = self.likes.is_empty() && self.others.is_none();
        if self.curve.is_empty() || !rising || !finite || !alone {
            return Err("expected a `curve` of points with rising numbers, and no `likes`".into());
        }
        Ok(Want {
            weight: self.weight,
            of: Wanted::Number(quantity, Curve(self.curve)),
        })
    }
}
