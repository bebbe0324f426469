//! What `trug choose` found: lines for a person, one object for a program.

use serde_json::{Map, Value, json};

use super::Context;
use crate::account::{Pair, Part, Section, object};
use crate::variety::{
    Ask, Facet, Index, Known, Ranked, Reply, Use, Varieties, Variety, in_bloom, in_brief,
};

/// The answer to a question, with what it was asked of.
pub(super) struct Found<'a> {
    pub(super) list: &'a Varieties,
    pub(super) index: &'a Index,
    pub(super) ask: &'a Ask,
    pub(super) reply: &'a Reply<'a>,
    pub(super) context: &'a Context,
}

impl Found<'_> {
    /// As a program gets it.
    pub(super) fn object(&self) -> Value {
        let varieties = self.reply.ranked.iter().map(|one| {
            let variety = self.variety(one);
            let name = Part::Pairs(vec![Pair::new("name", "name", variety.name.as_str())]);
            let section = Section::default()
                .with(name)
                .with(Part::Pairs(brief(variety, one, self.context)))
                .with(Part::sentences("why", self.why(one)));
            object(&[section])
        });
        let left = self.reply.left.iter().map(|facet| {
            let values = facet.values.iter();
            let values = values.map(|(value, count)| (value.to_string(), json!(count)));
            let values: Map<String, Value> = values.collect();
            (facet.facet.id().to_string(), Value::Object(values))
        });
        let mend = self.reply.mend.map(|mend| {
            json!({ "drop": self.ask.narrowings[mend.drop].to_string(), "brings": mend.brings })
        });
        json!({
            "found": self.reply.found,
            "caution": self.caution(),
            "varieties": varieties.collect::<Vec<_>>(),
            "left": left.collect::<Map<_, _>>(),
            "mend": mend,
        })
    }

    /// As a person reads it.
    pub(super) fn lines(&self) -> Vec<String> {
        let Reply { found, mend, .. } = self.reply;
        let mut lines = vec![format!("{found} of {} varieties.", self.list.len())];
        lines.extend(self.caution().map(|caution| format!("Caution: {caution}")));
        if let Some(mend) = mend {
            let dropped = &self.ask.narrowings[mend.drop];
            lines.push(format!("Drop {dropped} and {} are left.", mend.brings));
        } else if *found == 0 {
            lines.push("No single narrowing is to blame: drop two of them.".to_string());
        }
        for one in &self.reply.ranked {
            lines.push(String::new());
            lines.push(line(self.variety(one), one, self.context));
            let bloom = self.in_bloom(one);
            let why = bloom.into_iter().chain(self.why(one));
            lines.extend(why.map(|why| format!("    {why}")));
        }
        if *found > 0 {
            lines.push(String::new());
            lines.push("What each value would leave:".to_string());
            lines.extend(self.left());
        }
        lines
    }

    /// A line for each facet.
    fn left(&self) -> impl Iterator<Item = String> {
        let (rules, uses) = (self.context.set(), &self.context.contents.uses);
        self.reply.left.iter().map(|facet| {
            let values = facet.values.iter().filter(|(_, count)| *count > 0);
            let values: Vec<String> = values
                .map(|(value, count)| {
                    let value = facet.facet.value_in_words(value, rules, uses);
                    format!("{value} {count}")
                })
                .collect();
            let name = facet.facet.id().replace('-', " ");
            format!("  {name}: {}", values.join(", "))
        })
    }

    fn variety(&self, one: &Ranked) -> &Variety {
        &self.list.list()[one.row]
    }

    /// When it is in bloom, where that was asked.
    fn in_bloom(&self, one: &Ranked) -> Option<String> {
        let mut narrowings = self.ask.narrowings.iter();
        narrowings.find(|narrowing| narrowing.is_of(Facet::InBloom))?;
        let grounds = self.context.contents.grounds(self.context.set());
        let cell = in_bloom(self.variety(one), grounds)?;
        Some(format!("in bloom {}", cell.shown()))
    }

    /// Why it fits the use that was asked about as it does.
    fn why(&self, one: &Ranked) -> Vec<String> {
        let (Some(asked), Some(at)) = (self.asked_use(), self.ask.ranking.use_at) else {
            return Vec::new();
        };
        let context = self.context;
        let middles = self.index.middles().of(at);
        let known = Known::of(self.variety(one), context.set(), &context.contents.uses);
        let reasons = known.reasons(asked, middles, context.units);
        reasons.into_iter().map(|reason| reason.text).collect()
    }

    fn caution(&self) -> Option<&str> {
        self.asked_use()?.caution.as_deref()
    }

    fn asked_use(&self) -> Option<&Use> {
        let at = self.ask.ranking.use_at?;
        Some(&self.context.contents.uses.list()[at])
    }
}

/// One variety in a line: `Noust Ember: ball, 4 to 6 in across (size small); coral; fitness 82 %;
/// 3.1 from the colour`.
pub(super) fn line(variety: &Variety, one: &Ranked, context: &Context) -> String {
    let pairs = brief(variety, one, context);
    let for_people = pairs.iter().filter(|pair| !pair.name.is_empty());
    let said = for_people.map(|pair| pair.cell.shown());
    let said: Vec<String> = said.filter(|words| !words.is_empty()).collect();
    // The size is that of the form.
    let line = said.join("; ").replacen("; ", ", ", 1);
    format!("{}: {line}", variety.name.as_str())
}

fn brief(variety: &Variety, one: &Ranked, context: &Context) -> Vec<Pair> {
    let under = context.contents.grounds(context.set());
    in_brief(variety, one, under, context.units)
}
