//! The claims of a proof as SMT-LIB 2, so that any solver can check them.
//!
//! Written from the rules as data (conditions, precedence, applicability), never from blocks: what
//! a solver says of the text owes nothing to the method of [`super::proof`]. Two queries follow
//! one another: a bloom without a form, then a bloom with two. Each is unsatisfiable exactly when
//! the claim holds. The text is SMT-LIB 2.6 with enumerated datatypes and linear arithmetic.

use std::fmt::Write as _;

use super::condition::Condition;
use super::rules::RuleSet;
use super::space::Span;
use super::traits::{Kind, Trait};
use crate::measure::Exact;

impl RuleSet {
    /// The claims `every bloom has a form` and `no bloom has two` as SMT-LIB 2: a first `check-sat`
    /// for a gap, a second for an overlap.
    pub fn to_smt(&self) -> String {
        let writer = Writer {
            list: self.traits.list(),
        };
        let mut text = format!(
            "; {} ({}).\n\
             ; First query: a bloom without a form. Second query: a bloom with two forms.\n\
             ; Each is unsat exactly when the rule set has no such bloom.\n\
             (set-logic ALL)\n",
            comment(&self.id),
            comment(&self.name)
        );
        writer.traits(&mut text);
        self.smt_shapes(&writer, &mut text);
        self.smt_forms(&writer, &mut text);
        text
    }

    fn smt_shapes(&self, writer: &Writer<'_>, text: &mut String) {
        text.push_str("\n; Shapes: each rule, and none of the shapes before it.\n");
        for shape in &self.shapes {
            let mut parts = vec![writer.condition(&shape.requires)];
            let before = shape.unless.iter().map(|at| &self.shapes[*at].id);
            let before: Vec<String> = before.map(|id| symbol("shape.", &[id])).collect();
            if !before.is_empty() {
                parts.push(format!("(not {})", joined("or", "false", before)));
            }
            let _ = writeln!(
                text,
                "; {}: {}\n(define-fun {} () Bool {})",
                comment(&shape.name),
                comment(&shape.means),
                symbol("shape.", &[&shape.id]),
                joined("and", "true", parts)
            );
        }
    }

    fn smt_forms(&self, writer: &Writer<'_>, text: &mut String) {
        let size = self.traits.find("diameter");
        text.push_str("\n; Forms: a shape, and where sizes split it a diameter in millimetres.\n");
        let mut forms = Vec::new();
        for form in &self.forms {
            let mut parts = vec![symbol("shape.", &[&self.shapes[form.shape].id])];
            // OK because a form that takes every diameter has no test of it.
            let split = size.filter(|at| self.traits.get(*at).domain() != Some(form.diameter));
            parts.extend(split.map(|at| writer.number(at, form.diameter)));
            let name = symbol("form.", &[&form.id]);
            let _ = writeln!(
                text,
                "(define-fun {name} () Bool {})",
                joined("and", "true", parts)
            );
            forms.push(name);
        }
        let counted = forms.iter().map(|form| format!("\n    (ite {form} 1 0)"));
        let _ = writeln!(
            text,
            "\n; In how many forms the bloom falls.\n(define-fun forms-of-bloom () Int (+ 0{}))\n\n\
             ; A gap: a bloom without a form.\n\
             (push 1)\n(assert (= forms-of-bloom 0))\n(check-sat)\n(pop 1)\n\n\
             ; An overlap: a bloom with two forms.\n\
             (push 1)\n(assert (>= forms-of-bloom 2))\n(check-sat)\n(pop 1)",
            counted.collect::<String>()
        );
    }
}

/// Writes traits and conditions on them.
struct Writer<'a> {
    list: &'a [Trait],
}

impl Writer<'_> {
    fn traits(&self, text: &mut String) {
        for (index, one) in self.list.iter().enumerate() {
            let _ = writeln!(text, "\n; {}", comment(&one.ask));
            let name = value(one);
            let sort = match &one.kind {
                Kind::OneOf(states) => {
                    let sort = symbol("states-of.", &[&one.id]);
                    let ids = states
                        .iter()
                        .map(|s| format!("({})", symbol("", &[&one.id, &s.id])));
                    let ids: Vec<String> = ids.collect();
                    let _ = writeln!(
                        text,
                        "(declare-datatypes (({sort} 0)) (({})))",
                        ids.join(" ")
                    );
                    sort
                }
                Kind::Count(..) => "Int".to_string(),
                Kind::Share | Kind::Length(_) => "Real".to_string(),
            };
            let _ = writeln!(text, "(declare-const {name} {sort})");
            if one.only_where.is_some() {
                let _ = writeln!(text, "(declare-const {} Bool)", applies(one));
            }
            if let Some(domain) = one.domain() {
                let _ = writeln!(text, "(assert {})", self.bounds(index, domain, None));
            }
        }
        text.push_str("\n; Where a trait applies, and where its number is 0.\n");
        for one in self.list {
            if let Some(gate) = &one.only_where {
                let _ = writeln!(
                    text,
                    "(assert (= {} {}))",
                    applies(one),
                    self.condition(gate)
                );
            }
            if let Some(gate) = &one.zero_where {
                let nought = match one.kind {
                    // A state is never a number.
                    Kind::OneOf(_) => "false".to_string(),
                    _ => format!("(= {} {})", value(one), number(one, Exact::zero())),
                };
                let claim = format!("(= {nought} {})", self.condition(gate));
                let claim = match one.only_where {
                    Some(_) => format!("(=> {} {claim})", applies(one)),
                    None => claim,
                };
                let _ = writeln!(text, "(assert {claim})");
            }
        }
    }

    fn condition(&self, condition: &Condition) -> String {
        let each = |list: &[Condition]| list.iter().map(|c| self.condition(c)).collect();
        match condition {
            Condition::All(list) => joined("and", "true", each(list)),
            Condition::Any(list) => joined("or", "false", each(list)),
            Condition::Not(inner) => format!("(not {})", self.condition(inner)),
            Condition::States(index, mask) => self.states(*index, *mask),
            Condition::Number(index, span) => self.number(*index, *span),
        }
    }

    fn states(&self, index: usize, mask: u64) -> String {
        let one = &self.list[index];
        let wanted = one.states().iter().enumerate();
        let tests = wanted
            .filter(|(at, _)| mask >> at & 1 == 1)
            .map(|(_, s)| format!("(= {} {})", value(one), symbol("", &[&one.id, &s.id])));
        where_it_applies(one, joined("or", "false", tests.collect()))
    }

    fn number(&self, index: usize, span: Span) -> String {
        let one = &self.list[index];
        where_it_applies(one, self.bounds(index, span, one.domain()))
    }

    /// The ends of a span, without those that it shares with `known`.
    fn bounds(&self, index: usize, span: Span, known: Option<Span>) -> String {
        let one = &self.list[index];
        let mut tests = Vec::new();
        if known.map(|k| (k.low, k.low_in)) != Some((span.low, span.low_in)) {
            let relation = if span.low_in { ">=" } else { ">" };
            tests.push(compared(one, relation, span.low));
        }
        if known.map(|k| (k.high, k.high_in)) != Some((span.high, span.high_in)) {
            let relation = if span.high_in { "<=" } else { "<" };
            tests.push(compared(one, relation, span.high));
        }
        joined("and", "true", tests)
    }
}

/// A trait that does not apply fulfils no test of its value.
fn where_it_applies(one: &Trait, test: String) -> String {
    match one.only_where {
        Some(_) => format!("(and {} {test})", applies(one)),
        None => test,
    }
}

fn value(one: &Trait) -> String {
    symbol("bloom.", &[&one.id])
}

fn applies(one: &Trait) -> String {
    symbol("applies.", &[&one.id])
}

/// `(>= x 5)`; a count is whole, so a broken limit of a count is compared after multiplying.
fn compared(one: &Trait, relation: &str, limit: Exact) -> String {
    let (numerator, denominator) = limit.parts();
    match one.kind {
        Kind::Count(..) if denominator != 1 => format!(
            "({relation} (* {denominator} {}) {})",
            value(one),
            signed(numerator, "")
        ),
        _ => format!("({relation} {} {})", value(one), number(one, limit)),
    }
}

/// An exact number of the trait's sort.
fn number(one: &Trait, number: Exact) -> String {
    let (numerator, denominator) = number.parts();
    match one.kind {
        Kind::Count(..) => signed(numerator, ""),
        _ if denominator == 1 => signed(numerator, ".0"),
        _ => format!("(/ {} {denominator}.0)", signed(numerator, ".0")),
    }
}

/// SMT-LIB has no negative literals.
fn signed(whole: i128, suffix: &str) -> String {
    if whole < 0 {
        format!("(- {}{suffix})", whole.unsigned_abs())
    } else {
        format!("{whole}{suffix}")
    }
}

/// `(and a b)`; one part alone, and `none` of no parts.
fn joined(operator: &str, none: &str, mut parts: Vec<String>) -> String {
    parts.retain(|part| !(operator == "and" && part == "true"));
    match parts.len() {
        0 => none.to_string(),
        1 => parts.remove(0),
        _ => format!("({operator} {})", parts.join(" ")),
    }
}

/// A symbol of ids joined by `=`, quoted where an id has other than plain letters, digits and
/// hyphens. Marks that could make two names one, or that a quoted symbol may not hold, are escaped.
fn symbol(prefix: &str, ids: &[&str]) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    let escape = |id: &&str| -> String {
        id.chars()
            .map(|c| match c {
                '|' | '\\' | '=' | '%' => format!("%{:02X}", u32::from(c)),
                c if c.is_control() => format!("%{:02X}", u32::from(c)),
                c => c.to_string(),
            })
            .collect()
    };
    let name = ids.iter().map(escape).collect::<Vec<_>>().join("=");
    let is_plain = ids
        .iter()
        .all(|id| id.starts_with(|c: char| c.is_ascii_alphabetic()) && id.chars().all(plain));
    if is_plain {
        format!("{prefix}{name}")
    } else {
        format!("|{prefix}{name}|")
    }
}

/// Text that cannot end its comment.
fn comment(text: &str) -> String {
    text.replace(['\n', '\r'], " ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rule_reads_as_it_is_written() {
        let [trade, register] = &RuleSet::embedded()[..] else {
            panic!("two sets")
        };
        let text = trade.to_smt();
        for line in [
            "(declare-datatypes ((states-of.centre 0)) (((centre=closed) (centre=open) (centre=pincushion))))",
            "(assert (and (> bloom.diameter 0.0) (<= bloom.diameter 500.0)))",
            "(assert (= applies.heart (= bloom.centre centre=closed)))",
            "(assert (= (= bloom.rolled 0.0) (= bloom.roll roll=flat)))",
            "(define-fun shape.peony () Bool (and (= bloom.centre centre=open) (and (>= bloom.rows 2) (<= bloom.rows 5)) (and applies.collar (= bloom.collar collar=none))))",
            "(define-fun form.miniature-ball () Bool (and shape.ball (and (> bloom.diameter (/ 254.0 5.0)) (< bloom.diameter (/ 889.0 10.0)))))",
        ] {
            assert!(text.lines().any(|found| found == line), "{line}\n{text}");
        }
        assert_eq!(text.matches("(check-sat)").count(), 2);
        let ball = "(not (or shape.double-orchid shape.pompon))";
        assert!(register.to_smt().contains(ball));
        assert_eq!(text, trade.to_smt());
    }

    #[test]
    fn names_that_could_be_taken_for_others_are_quoted_and_escaped() {
        assert_eq!(symbol("form.", &["micro-ball"]), "form.micro-ball");
        assert_eq!(symbol("", &["a b", "c|d"]), "|a b=c%7Cd|");
        assert_ne!(symbol("", &["a=b", "c"]), symbol("", &["a", "b=c"]));
        assert_eq!(signed(-3, ".0"), "(- 3.0)");
    }

    #[test]
    fn brackets_match() {
        for set in RuleSet::embedded() {
            let text = set.to_smt();
            let code: Vec<&str> = text.lines().filter(|l| !l.starts_with(';')).collect();
            let count = |mark| code.iter().map(|l| l.matches(mark).count()).sum::<usize>();
            assert_eq!(count('('), count(')'), "{}", set.id);
        }
    }
}
