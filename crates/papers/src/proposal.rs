//! A proposal as text: what to turn, job by job, what it mends and spoils, and which limit to relax where nothing serves.

use crate::sheet::caution;
use crate::subject::{ease, quoted, section_name};
use crate::text::{Span, Style, Text, WIDTH, width};
use rigwright_margins::propose::{Change, Outcome, Proposal, Relax, Setting, Step, Turn};
use rigwright_margins::{Verdict, question};
use rigwright_units::{Kind, System, show, show_up};
use rigwright_well::{Fit, PartKind, WearClass};
use rigwright_wellfile::{entry, nozzles_text};

/// Column in which the words beside a label begin.
const HANG: usize = 14;

/// What a proposal is about.
pub struct Proposed<'a> {
    /// Name of the well file as the user gave it.
    pub file: &'a str,
    /// The well and the rig as they stand.
    pub fit: &'a Fit,
    /// The proposal.
    pub proposal: &'a Proposal,
    /// The system of units that it is printed in.
    pub units: System,
}

/// The proposal.
pub fn proposal(proposed: &Proposed) -> Text {
    let mut text = Text::default();
    head(&mut text, proposed);
    let sections = (0..proposed.fit.well.sections.len()).map(Some);
    for section in std::iter::once(None).chain(sections) {
        let of_section: Vec<&Step> = proposed.proposal.steps.iter().filter(|step| step.section == section).collect();
        if of_section.is_empty() {
            continue;
        }
        text.blank();
        text.heading(section_name(proposed.fit, section));
        for step in of_section {
            one(&mut text, proposed, step);
        }
    }
    text.blank();
    text.paragraph(
        0,
        Style::Faint,
        "Steps marked \"taken\" stand on each other in the order of the sections, the rig first and last. Every step was reviewed \
         again, whole. Nozzles for impact and for power are two ways to use the pump: neither is taken over.",
    );
    text.blank();
    caution(&mut text);
    text
}

fn head(text: &mut Text, proposed: &Proposed) {
    let name = format!("Proposal for {} on {}", proposed.fit.well.name, proposed.fit.rig.name);
    let command = format!("rigwright review {}", quoted(proposed.file));
    let gap = WIDTH.saturating_sub(width(&name) + width(&command)).max(2);
    text.line([name.into(), " ".repeat(gap).into(), Span::new(command, Style::Faint)]);
    text.rule();
    let (before, after) = proposed.proposal.worst;
    let turns = proposed.proposal.steps.iter().filter(|step| step.taken).map(|step| step.turns.len()).sum::<usize>();
    let words = match turns {
        0 => format!("the worst answer is {}; nothing that may be turned betters it", before.word()),
        _ => format!("the worst answer goes from {} to {} with all that is taken", before.word(), after.word()),
    };
    text.hanging(HANG, "all together".into(), &words);
    changes(text, proposed, "mends", &proposed.proposal.improves);
    changes(text, proposed, "spoils", &proposed.proposal.spoils);
}

fn one(text: &mut Text, proposed: &Proposed, step: &Step) {
    let taken = if step.taken { ", taken" } else { "" };
    let word = match &step.outcome {
        Outcome::AsItIs(Verdict::DoesNotArise) => "does not arise".to_owned(),
        Outcome::AsItIs(verdict) => format!("{} as it stands", verdict.word()),
        Outcome::Turns(verdict) => format!("{} with these turns{taken}", verdict.word()),
        Outcome::Nothing => "nothing that may be turned keeps all limits".to_owned(),
        Outcome::Told => String::new(),
        Outcome::Unknown(_) => "unknown".to_owned(),
        Outcome::GaveUp => "the search asked as much as it may and gave up".to_owned(),
    };
    let style = if matches!(step.outcome, Outcome::Nothing | Outcome::GaveUp) { Style::Strong } else { Style::Plain };
    let gap = if word.is_empty() { "" } else { ": " };
    text.line([Span::new(format!("{}{gap}{word}", step.job.name()), style)]);
    for turn in &step.turns {
        text.hanging(HANG, "  turn".into(), &turned(proposed, turn));
    }
    for figure in &step.figures {
        let value = show(figure.value, figure.kind, proposed.units);
        text.hanging(HANG, "  figure".into(), &format!("{}: {value}", figure.name));
    }
    if let Outcome::Unknown(entries) = &step.outcome {
        for path in entries {
            let help = entry(path).map_or("", |entry| entry.help);
            text.hanging(HANG, "  wants".into(), &format!("`{path}`: {help}"));
        }
    }
    changes(text, proposed, "  mends", &step.improves);
    changes(text, proposed, "  spoils", &step.spoils);
    for (index, relax) in step.relax.iter().enumerate() {
        text.hanging(HANG, if index == 0 { "  relax" } else { "  then" }.into(), &relaxed(proposed, relax));
    }
}

fn changes(text: &mut Text, proposed: &Proposed, label: &str, changes: &[Change]) {
    if changes.is_empty() {
        return;
    }
    let one = |change: &Change| {
        let title = question(change.slug).map_or(change.slug, |question| question.title);
        let section = section_name(proposed.fit, change.section);
        format!("{title} in {section} ({} to {})", change.before.word(), change.after.word())
    };
    let list: Vec<String> = changes.iter().map(one).collect();
    text.hanging(HANG, label.into(), &list.join(", "));
}

/// "flow rate from 950 gpm to 650 gpm, today".
fn turned(proposed: &Proposed, turn: &Turn) -> String {
    let value = |setting: &Setting| match setting {
        Setting::Value(value) => {
            let nozzles = (turn.kind == Kind::Area).then(|| nozzles(proposed.fit, turn, *value)).flatten();
            nozzles.unwrap_or_else(|| show(*value, turn.kind, proposed.units))
        }
        Setting::Pipe { grade, yield_strength, class } => {
            let strength = || format!("yield {}", show(*yield_strength, Kind::Stress, proposed.units));
            format!("{}, {}", grade.map_or_else(strength, str::to_owned), class_word(*class))
        }
    };
    format!("{} from {} to {}, {}", turn.knob, value(&turn.from), value(&turn.to), ease(turn.ease))
}

fn nozzles(fit: &Fit, turn: &Turn, flow_area: f64) -> Option<String> {
    let section = fit.well.sections.get(turn.section?)?;
    let bit = section.string.iter().find(|part| part.kind == PartKind::Bit)?;
    nozzles_text(bit.nozzles?, flow_area)
}

/// Class of wear as the well file writes it.
pub(crate) const fn class_word(class: WearClass) -> &'static str {
    match class {
        WearClass::New => "new",
        WearClass::Premium => "premium",
        WearClass::Class2 => "class-2",
    }
}

fn relaxed(proposed: &Proposed, relax: &Relax) -> String {
    let title = question(relax.slug).map_or(relax.slug, |question| question.title);
    let during = relax.operation.name();
    let short = show_up(relax.short_by.max(0.0), relax.kind, proposed.units);
    let rest = if relax.reaches >= 1.0 {
        "all the others then hold".to_owned()
    } else if relax.reaches >= 0.0 {
        "the others then hold or are thin".to_owned()
    } else {
        "others still fall short".to_owned()
    };
    format!("{title}, {during}: it stays short by {short}; {rest}")
}
