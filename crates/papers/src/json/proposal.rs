//! A proposal.

use super::review::{FigureJson, Naming, figure};
use super::{FORMAT, Units, in_unit, print};
use crate::proposal::{Proposed, class_word};
use rigwright_margins::propose::{Change, Outcome, Relax, Setting, Step, Turn};
use rigwright_units::{System, unit};
use rigwright_wellfile::Ease;
use serde::Serialize;

/// A proposal as JSON.
pub fn proposal(proposed: &Proposed) -> String {
    let naming = Naming { fit: proposed.fit, units: proposed.units };
    let (before, after) = proposed.proposal.worst;
    print(&Document {
        format: FORMAT,
        units: Units::of(proposed.units),
        well: &proposed.fit.well.name,
        rig: &proposed.fit.rig.name,
        worst_before: before.word(),
        worst_after: after.word(),
        mends: changes(&naming, &proposed.proposal.improves),
        spoils: changes(&naming, &proposed.proposal.spoils),
        steps: proposed.proposal.steps.iter().map(|one| step(&naming, one)).collect(),
    })
}

#[derive(Serialize)]
struct Document<'a> {
    format: u32,
    units: Units,
    well: &'a str,
    rig: &'a str,
    worst_before: &'static str,
    worst_after: &'static str,
    mends: Vec<ChangeJson<'a>>,
    spoils: Vec<ChangeJson<'a>>,
    steps: Vec<StepJson<'a>>,
}

#[derive(Serialize)]
struct StepJson<'a> {
    job: &'static str,
    section: Option<&'a str>,
    outcome: &'static str,
    verdict: Option<&'static str>,
    taken: bool,
    turns: Vec<TurnJson<'a>>,
    figures: Vec<FigureJson>,
    missing: &'a [&'static str],
    mends: Vec<ChangeJson<'a>>,
    spoils: Vec<ChangeJson<'a>>,
    relax: Vec<RelaxJson>,
}

#[derive(Serialize)]
struct TurnJson<'a> {
    knob: &'static str,
    section: Option<&'a str>,
    from: SettingJson,
    to: SettingJson,
    unit: &'static str,
    ease: &'static str,
}

/// A value, or a grade and a class of pipe with its yield strength as the value.
#[derive(Serialize)]
struct SettingJson {
    value: f64,
    grade: Option<&'static str>,
    class: Option<&'static str>,
}

#[derive(Serialize)]
struct ChangeJson<'a> {
    question: &'static str,
    section: Option<&'a str>,
    before: &'static str,
    after: &'static str,
}

#[derive(Serialize)]
struct RelaxJson {
    question: &'static str,
    operation: &'static str,
    reaches: f64,
    short_by: f64,
    unit: &'static str,
}

fn step<'a>(naming: &Naming<'a>, step: &'a Step) -> StepJson<'a> {
    let (outcome, verdict, missing): (_, _, &[&str]) = match &step.outcome {
        Outcome::AsItIs(verdict) => ("as it is", Some(verdict.word()), &[]),
        Outcome::Turns(verdict) => ("turns", Some(verdict.word()), &[]),
        Outcome::Nothing => ("nothing", None, &[]),
        Outcome::Told => ("told", None, &[]),
        Outcome::Unknown(entries) => ("unknown", None, entries),
        Outcome::GaveUp => ("gave up", None, &[]),
    };
    StepJson {
        job: step.job.slug(),
        section: naming.section(step.section),
        outcome,
        verdict,
        taken: step.taken,
        turns: step.turns.iter().map(|one| turn(naming, one)).collect(),
        figures: step.figures.iter().map(|one| figure(one, naming.units)).collect(),
        missing,
        mends: changes(naming, &step.improves),
        spoils: changes(naming, &step.spoils),
        relax: step.relax.iter().map(|one| relax(one, naming.units)).collect(),
    }
}

fn turn<'a>(naming: &Naming<'a>, turn: &Turn) -> TurnJson<'a> {
    let setting = |setting: &Setting| match setting {
        Setting::Value(value) => SettingJson { value: in_unit(*value, turn.kind, naming.units), grade: None, class: None },
        Setting::Pipe { grade, yield_strength, class } => SettingJson {
            value: in_unit(*yield_strength, turn.kind, naming.units),
            grade: *grade,
            class: Some(class_word(*class)),
        },
    };
    TurnJson {
        knob: turn.knob,
        section: naming.section(turn.section),
        from: setting(&turn.from),
        to: setting(&turn.to),
        unit: unit(turn.kind, naming.units).symbol,
        ease: ease(turn.ease),
    }
}

/// How soon a knob can be turned.
pub(super) const fn ease(ease: Ease) -> &'static str {
    match ease {
        Ease::Today => "today",
        Ease::NextTrip => "next trip",
        Ease::NeedsBuying => "needs buying",
    }
}

fn changes<'a>(naming: &Naming<'a>, changes: &[Change]) -> Vec<ChangeJson<'a>> {
    let one = |change: &Change| ChangeJson {
        question: change.slug,
        section: naming.section(change.section),
        before: change.before.word(),
        after: change.after.word(),
    };
    changes.iter().map(one).collect()
}

fn relax(relax: &Relax, units: System) -> RelaxJson {
    RelaxJson {
        question: relax.slug,
        operation: relax.operation.slug(),
        reaches: relax.reaches,
        short_by: super::difference_in_unit(relax.short_by, relax.kind, units),
        unit: unit(relax.kind, units).symbol,
    }
}
