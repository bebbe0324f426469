//! `trug row` and `trug row ID`: the row as a table, and what one subject's entries add up to.

use std::io::Write;

use anyhow::Result;
use serde_json::{Value, json};
use unicode_width::UnicodeWidthStr;

use super::super::{Context, key, today};
use super::{Standing, Workings};
use crate::form::sentences::percent;
use crate::measure::sample::Interval;
use crate::trial::evidence::Damage;
use crate::trial::statistics::parents::Estimate;
use crate::trial::statistics::share::Share;
use crate::trial::statistics::survival::Curve;
use crate::trial::{Evidence, Next};
use crate::variety::Ground;

/// One subject in full.
pub(super) fn one(id: &str, context: &Context, out: &mut dyn Write) -> Result<bool> {
    let workings = Workings::new(context)?;
    let subject = workings.subject(id)?;
    let standing = workings.standing(&subject, context);
    if context.json {
        writeln!(out, "{:#}", object(&standing, &workings, context))?;
        return Ok(true);
    }
    match workings.row.trial.seedling_of(&subject) {
        Some(seedling) => writeln!(out, "{subject}: {}", seedling.told())?,
        None => writeln!(out, "{subject}: of your list, under trial")?,
    }
    let listed = standing.listed.as_ref();
    let lines = standing
        .evidence
        .told(&workings.keyer, listed, context.units);
    for line in lines {
        writeln!(out, "  {:<12} {}", line.about, line.text)?;
    }
    writeln!(out, "\nThe gate's advice: {}.", standing.advice.fate.word())?;
    for reason in &standing.advice.reasons {
        writeln!(out, "  because: {reason}")?;
    }
    for missing in &standing.advice.missing {
        writeln!(out, "  missing: {missing}")?;
    }
    for unknown in &standing.advice.unknown {
        writeln!(out, "  not known: {unknown}")?;
    }
    let fits = workings.fits(&standing.evidence, context);
    let uses = context.contents.uses.list();
    for (ground, heading) in [
        (Ground::Own, "Fits by what was seen on it"),
        (Ground::Expected, "Fits as expected of its form"),
    ] {
        let own = fits.iter().filter(|fit| fit.ground == Some(ground));
        let told = own.filter_map(|fit| {
            let name = &uses[fit.use_at].name;
            Some(format!("{name} {}", percent(fit.fitness?)))
        });
        let told: Vec<String> = told.collect();
        if !told.is_empty() {
            writeln!(out, "\n{heading}: {}.", told.join(", "))?;
        }
    }
    writeln!(out, "\nIts entries:")?;
    for entry in workings.row.trial.entries() {
        if entry.of == subject {
            let stands = workings.row.trial.stands_for(entry.id).map(|one| one.id);
            let mark = if stands == Some(entry.id) { ' ' } else { '-' };
            writeln!(out, " {mark}{:>5}  {}", entry.id, entry.print())?;
        }
    }
    Ok(true)
}

/// Every subject by what needs doing next, and the row as a whole.
pub(super) fn all(context: &Context, out: &mut dyn Write) -> Result<bool> {
    let workings = Workings::new(context)?;
    let trial = &workings.row.trial;
    let mut standings: Vec<(Next, Standing)> = trial
        .subjects()
        .iter()
        .map(|subject| {
            let standing = workings.standing(subject, context);
            let release = &context.contents.release;
            let next = Next::of(&standing.evidence, &standing.advice, release, today());
            (next, standing)
        })
        .collect();
    let mut order: Vec<Next> = standings.iter().map(|(next, _)| next.clone()).collect();
    Next::sort(&mut order);
    standings.sort_by_key(|(next, _)| order.iter().position(|one| one == next));
    if context.json {
        let plants = standings.iter().map(|(next, standing)| {
            let mut object = object(standing, &workings, context);
            object["next"] = json!(next.told);
            object
        });
        let whole = whole(&workings);
        let object = json!({ "whole": whole, "plants": plants.collect::<Vec<_>>() });
        writeln!(out, "{object:#}")?;
        return Ok(true);
    }
    if standings.is_empty() {
        writeln!(out, "The row is empty: `trug row add` adds a seedling.")?;
        return Ok(true);
    }
    let mut rows = vec![
        [
            "plant",
            "form so far",
            "mean",
            "vase",
            "harm",
            "fate",
            "what next",
        ]
        .map(str::to_string),
    ];
    rows.extend(
        standings
            .iter()
            .map(|(next, standing)| cells(next, standing, &workings, context)),
    );
    for row in &rows {
        let mut line = String::new();
        for (at, cell) in row.iter().enumerate() {
            let width = rows.iter().map(|row| row[at].width()).max().unwrap_or(0);
            let last = at + 1 == row.len();
            let fill = if last { 0 } else { width - cell.width() + 2 };
            line += cell;
            line += &" ".repeat(fill);
        }
        writeln!(out, "{line}")?;
    }
    for (heading, lines) in trial.whole().told() {
        writeln!(out, "\n{heading}:")?;
        for line in lines {
            writeln!(out, "  {line}")?;
        }
    }
    Ok(true)
}

fn cells(next: &Next, standing: &Standing, workings: &Workings, context: &Context) -> [String; 7] {
    let unknown = || "?".to_string();
    let evidence = &standing.evidence;
    let credence = context.contents.release.least.credence;
    let form = evidence.taken(&workings.keyer, standing.listed.as_ref(), credence);
    let form = form.map(|taken| format!("{} {}", taken.name(&workings.keyer.set), taken.ground()));
    let mean = evidence.diameters.as_ref();
    let vase = evidence.vase.as_ref().map(|curve| match curve.median {
        Some(median) => format!("{median} d"),
        None => format!(">{} d", curve.watched),
    });
    let worst = evidence.damage.iter().filter_map(|one| one.share.value());
    let fate = match &evidence.decision {
        Some((_, decision)) => decision.fate.word().to_string(),
        None => format!("{}?", standing.advice.fate.word()),
    };
    [
        evidence.subject.to_string(),
        form.unwrap_or_else(unknown),
        mean.map_or_else(unknown, |seen| seen.mean().shown(context.units)),
        vase.unwrap_or_else(unknown),
        worst.max_by(f64::total_cmp).map_or_else(unknown, percent),
        fate,
        next.told.clone(),
    ]
}

/// One subject as an object; lengths in mm, shares from 0 to 1.
fn object(standing: &Standing, workings: &Workings, context: &Context) -> Value {
    let Standing {
        evidence,
        advice,
        listed,
    } = standing;
    let keyer = &workings.keyer;
    let diameter = evidence.diameters.as_ref().map(|seen| {
        let limits = seen.nested.limits();
        json!({
            "mean": seen.mean().mm().to_f64(),
            "low": limits.map(|limits| limits.low),
            "high": limits.map(|limits| limits.high),
            "n": seen.count(),
            "days": seen.nested.dates,
            "spread": seen.nested.spread(),
        })
    });
    let colours = evidence.colours.iter().map(|seen| {
        // The middle of a word is not a colour that anybody measured.
        let measured = seen.name.map(|_| seen.mean);
        json!({
            "part": seen.part.word(),
            "words": seen.words,
            "lab": measured.map(|mean| [mean.l, mean.a, mean.b]),
            "hex": measured.map(|mean| mean.to_srgb().to_string()),
            "name": seen.name,
            "n": seen.count,
            "spread": seen.spread,
        })
    });
    let near = evidence.near.iter();
    let near = near.map(
        |near| json!({ "name": near.name, "distance": near.distance, "same_form": near.same_form }),
    );
    let fits = workings.fits(evidence, context).into_iter();
    let uses = context.contents.uses.list();
    let fits = fits.map(|fit| {
        let ground = fit.ground.map(|ground| match ground {
            Ground::Own => "seen on it",
            Ground::Expected => "expected of its form",
        });
        // Where nothing of it may be said a number would say it.
        let fitness = fit.fitness.filter(|_| ground.is_some());
        json!({ "use": uses[fit.use_at].name, "fitness": fitness, "ground": ground })
    });
    let taken = evidence.taken(
        keyer,
        listed.as_ref(),
        context.contents.release.least.credence,
    );
    let taken = taken.map(|taken| json!({ "form": taken.name(&keyer.set), "from": taken.from() }));
    let decision = evidence.decision.as_ref().map(|(date, decision)| {
        json!({ "fate": decision.fate.word(), "date": date.to_string(), "reason": decision.reason })
    });
    json!({
        "id": evidence.subject.to_string(),
        "form": key::object(keyer, &evidence.form.reading(keyer)),
        "taken": taken,
        "looks_differ": evidence.form.disagreements.iter().map(|one| one.sentence(keyer)).collect::<Vec<_>>(),
        "diameter": diameter,
        "vase": evidence.vase.as_ref().map(vase),
        "damage": damage(evidence),
        "colour": colours.collect::<Vec<_>>(),
        "near": near.collect::<Vec<_>>(),
        "cut": evidence.seasons.iter().map(|season| json!({
            "year": season.year, "stems": season.stems, "weeks": season.weeks,
            "a_plant": season.a_plant, "a_week": season.a_week(),
        })).collect::<Vec<_>>(),
        "tubers": json!({ "kept": share(evidence.tubers.kept), "stored": evidence.tubers.stored }),
        "fits": fits.collect::<Vec<_>>(),
        "advice": advice.fate.word(),
        "reasons": advice.reasons,
        "missing": advice.missing,
        "not_known": advice.unknown,
        "decision": decision,
        "doubts": evidence.doubts,
    })
}

pub(super) fn vase(curve: &Curve) -> Value {
    json!({
        "curve": curve.steps.iter().map(|step| json!([step.day, step.share])).collect::<Vec<_>>(),
        "errors": curve.steps.iter().map(|step| json!(step.error)).collect::<Vec<_>>(),
        "median": curve.median,
        "low": curve.median_limits.low,
        "high": curve.median_limits.high,
        "stems": curve.stems,
        "censored": curve.censored,
    })
}

/// All weather together, and each kind by itself; null where none was counted after.
fn damage(evidence: &Evidence) -> Value {
    let all: Share = evidence.damage.iter().map(|one| one.share).sum();
    if all.of() == 0 {
        return Value::Null;
    }
    let mut object = share(all);
    let by = |one: &Damage| {
        let mut object = share(one.share);
        object["weather"] = json!(one.kind.word());
        object["events"] = json!(one.events);
        object
    };
    object["by_weather"] = json!(evidence.damage.iter().map(by).collect::<Vec<_>>());
    object
}

fn share(share: Share) -> Value {
    let Interval { low, high } = share.limits();
    json!({ "share": share.value(), "low": low, "high": high, "hit": share.hit(), "open": share.of() })
}

fn whole(workings: &Workings) -> Value {
    let whole = workings.row.trial.whole();
    let counts = |counts: &crate::trial::Counts| json!({ "sown": counts.sown, "keep": counts.keep, "hold": counts.hold, "cull": counts.cull });
    let years = |years: &[(i16, crate::trial::Counts)]| {
        let year = |(year, seen): &(i16, crate::trial::Counts)| {
            let mut object = counts(seen);
            object["year"] = json!(year);
            object
        };
        years.iter().map(year).collect::<Vec<_>>()
    };
    let would_stay = |Estimate { share, limits }: Estimate| json!({ "share": share, "low": limits.low, "high": limits.high });
    let parents = whole.parents.iter().map(|parent| {
        json!({
            "parent": parent.parent.to_string(),
            "counts": counts(&parent.counts),
            "stays": share(parent.offspring.own),
            "would_stay": parent.offspring.estimate.map(would_stay),
        })
    });
    json!({
        "counts": counts(&whole.all),
        "kept": share(whole.all.kept()),
        "stays": share(whole.all.stays()),
        "sown": years(&whole.sown),
        "seasons": years(&whole.seasons),
        "parents": parents.collect::<Vec<_>>(),
        "new_parent": whole.new_parent.map(would_stay),
    })
}
