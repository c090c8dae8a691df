//! What the crew may turn, beside the sheet: each knob with its value, a step down and a step up.
//!
//! Without a script the steps are plain links and the fields a plain form; with one, the sheet answers as they move.

use crate::Server;
use crate::ask::Case;
use crate::change::Changes;
use crate::shelf::Fitted;
use maud::{Markup, html};
use rigwright_margins::Remedy;
use rigwright_papers::Subject;
use rigwright_units::{Kind, Unit, as_written, show_exact_in};
use rigwright_well::{Fit, PartKind};
use rigwright_wellfile::{Entry, Knob, Origin, Provenance, Step, nozzles_text};

/// Settings closer than this are one: far below any step. [SI]
const SAME: f64 = 1e-9;
/// Steps on either side that the slider reaches.
const REACH: f64 = 20.0;

/// Path of a page, and what its address holds besides the case.
type Page<'a> = (&'a str, &'a [(&'a str, &'a str)]);

/// A knob at its place in the files.
struct Turned<'a> {
    path: &'a str,
    entry: &'static Entry,
    knob: &'static Knob,
    section: usize,
    /// As it is written now, what-if included.
    text: &'a str,
    /// The unit that it is written in, for what has one.
    unit: Option<&'static Unit>,
}

/// The text of a value, written or assumed.
pub(crate) fn text(origin: &Origin) -> &str {
    match origin {
        Origin::Given { text, .. } | Origin::Defaulted { text, .. } => text.trim().trim_matches('"'),
    }
}

/// Whether a value says what the file says already.
pub(crate) fn is_written(provenance: &Provenance, path: &str, value: &str) -> bool {
    provenance.get(path).is_some_and(|origin| text(origin) == value.trim().trim_matches('"'))
}

/// The section in which a concrete path lies.
fn section_of(path: &str) -> Option<usize> {
    path.strip_prefix("section[")?.split(']').next()?.parse().ok()
}

fn turned(provenance: &Provenance) -> Vec<Turned<'_>> {
    let known = |(path, entry, origin): (_, &'static Entry, _)| {
        let (knob, text) = (entry.knob?, text(origin));
        // Whole numbers and nozzles are written without one.
        let bare = matches!(knob.kind, Kind::Count | Kind::Area);
        let unit = if bare { None } else { as_written(text, knob.kind).ok().map(|(_, unit)| unit) };
        Some(Turned { path, entry, knob, section: section_of(path).unwrap_or(0), text, unit })
    };
    provenance.entries().filter_map(known).collect()
}

/// A form sends every field; only what differs from the files is a change. Takes the others out, and says whether there
/// were any.
pub(crate) fn leave_out_what_is_written(server: &Server, case: &mut Case) -> bool {
    if case.changes.is_empty() {
        return false;
    }
    let Ok(file) = server.shelf.fitted(&server.folder, &case.with(Changes::default()), false) else { return false };
    let before = case.changes.clone();
    case.changes.retain(|path, value| !is_written(&file.loaded.provenance, path, value));
    case.changes != before
}

/// The panel of a page; `more` is what its address holds besides the case.
pub(crate) fn panel(case: &Case, fitted: &Fitted, path: &str, more: &[(&str, &str)]) -> Markup {
    let all = turned(&fitted.loaded.provenance);
    let fit = &fitted.loaded.fit;
    let weakest = fitted.review.weakest();
    let open = weakest.map(|asked| asked.situation.section).unwrap_or_default();
    html! {
        form #turn.panel method="get" action=(path) data-well=(case.well) aria-label="what if" {
            h2 { "What if" }
            p.faint { "Turn something: the page answers, the file stays as it is." }
            input type="hidden" name="well" value=(case.well);
            @for (key, value) in more { input type="hidden" name=(key) value=(value); }
            @for kept in &case.kept { input type="hidden" name="kept" value=(crate::ask::written(kept)); }
            // Changes of other entries are carried along.
            @for (path, value) in case.changes.iter().filter(|(path, _)| !all.iter().any(|turned| turned.path == *path)) {
                input type="hidden" name={ "if." (path) } value=(value);
            }
            @for (index, section) in fit.well.sections.iter().enumerate() {
                details open[index == open] {
                    summary { (section.name) }
                    @for turned in all.iter().filter(|turned| turned.knob.per_section && turned.section == index) { (field(case, fitted, turned, (path, more))) }
                }
            }
            details open {
                summary { "rig" }
                @for turned in all.iter().filter(|turned| !turned.knob.per_section) { (field(case, fitted, turned, (path, more))) }
            }
            p.acts {
                button { "Ask" }
                a href=(case.url("/inputs", &[])) { "Any other figure of the files" }
            }
        }
    }
}

fn field(case: &Case, fitted: &Fitted, turned: &Turned, page: Page) -> Markup {
    let changed = case.changes.get(turned.path).is_some();
    let id = format!("if.{}", turned.path);
    // A seat moves the end of its section too: only its steps know how.
    let slider = if moves_section(turned) { None } else { slider(&fitted.loaded.fit, turned) };
    html! {
        div.knob class=[changed.then_some("changed")] {
            label for=(id) { (turned.knob.name) @if changed { span.mark { " changed" } } }
            div.turn {
                (nudge(case, fitted, turned, false, page))
                input #(id) name=(id) value=(turned.text) data-was=(turned.text) title=(turned.entry.help) spellcheck="false" autocomplete="off";
                (nudge(case, fitted, turned, true, page))
            }
            @if let Some((low, high, step, value, unit)) = slider {
                input type="range" hidden data-for=(id) data-unit=(unit) min=(low) max=(high) step=(step) value=(value) aria-label={ (turned.knob.name) ", slider" };
            }
        }
    }
}

/// A step down or up, as a link that works without a script.
fn nudge(case: &Case, fitted: &Fitted, turned: &Turned, up: bool, (path, more): Page) -> Markup {
    let sign = if up { "+" } else { "−" };
    let words = format!("{} {}", turned.knob.name, if up { "one step up" } else { "one step down" });
    let next = step(&fitted.loaded.fit, turned, up).and_then(|(value, by)| {
        let next = put(case, &fitted.loaded.provenance, turned, &value, by)?;
        Some((value, next))
    });
    match next {
        Some((value, next)) => html! {
            a.nudge href=(next.url(path, more)) data-for={ "if." (turned.path) } data-value=(value) aria-label=(words) { (sign) }
        },
        None => html! { span.nudge.off aria-hidden="true" { (sign) } },
    }
}

/// The value one step away, as one would write it, and how far that is.
fn step(fit: &Fit, turned: &Turned, up: bool) -> Option<(String, f64)> {
    let knob = turned.knob;
    let now = (knob.get)(fit, turned.section)?;
    let allowed = (knob.allowed)(fit, turned.section);
    let next = match knob.step {
        Step::By(step) => {
            if up {
                now + step
            } else {
                now - step
            }
        }
        Step::Among(choices) => {
            let choices = choices(fit, turned.section);
            if up {
                choices.into_iter().find(|choice| *choice > now + SAME)?
            } else {
                choices.into_iter().rev().find(|choice| *choice < now - SAME)?
            }
        }
    };
    let value = allowed.contains(next).then(|| written(fit, turned, next)).flatten()?;
    Some((value, next - now))
}

/// A setting of a knob as one would write it, in the unit in which it is written now.
fn written(fit: &Fit, turned: &Turned, value: f64) -> Option<String> {
    match turned.knob.kind {
        Kind::Count => Some(format!("{value:.0}")),
        Kind::Area => {
            let bit = fit.well.sections.get(turned.section)?.string.iter().find(|part| part.kind == PartKind::Bit)?;
            nozzles_text(bit.nozzles?, value)
        }
        _ => Some(show_exact_in(value, turned.unit?).replace(',', "")),
    }
}

/// Ends, step and value of a slider, and the unit behind its number.
fn slider(fit: &Fit, turned: &Turned) -> Option<(String, String, String, String, &'static str)> {
    let Step::By(step) = turned.knob.step else { return None };
    let unit = turned.unit?;
    let now = (turned.knob.get)(fit, turned.section)?;
    let allowed = (turned.knob.allowed)(fit, turned.section);
    let reach = |steps: f64| {
        let mut steps = steps;
        // As far as is allowed, in whole steps.
        while steps.abs() > 0.5 && !allowed.contains(now + steps * step) {
            steps -= steps.signum();
        }
        now + steps * step
    };
    let number = |value: f64| rigwright_papers::figure::number(unit.from_si(value));
    let per_step = unit.from_si(now + step) - unit.from_si(now);
    Some((number(reach(-REACH)), number(reach(REACH)), rigwright_papers::figure::number(per_step), number(now), unit.symbol))
}

/// The case with a remedy taken as a what-if.
pub(crate) fn with_remedy(case: &Case, subject: &Subject, remedy: &Remedy) -> Option<Case> {
    let all = turned(subject.provenance);
    let section = remedy.section.unwrap_or(0);
    let is_it =
        |turned: &&Turned| turned.knob.name == remedy.knob.name && (remedy.section.is_none() || turned.section == section);
    let turned = all.iter().find(is_it)?;
    let value = written(subject.fit, turned, remedy.to)?;
    put(case, subject.provenance, turned, &value, remedy.to - remedy.from)
}

/// The case with a knob put to a value that is so far from where it stands. A section ends as far below its shoe as
/// before: with the seat its end moves.
fn put(case: &Case, provenance: &Provenance, turned: &Turned, value: &str, by: f64) -> Option<Case> {
    let case = case.and(turned.path, value);
    if !moves_section(turned) {
        return Some(case);
    }
    let path = format!("section[{}].bottom", turned.section);
    let (bottom, unit) = as_written(text(provenance.get(&path)?), Kind::Depth).ok()?;
    Some(case.and(&path, &show_exact_in(unit.to_si(bottom) + by, unit).replace(',', "")))
}

fn moves_section(turned: &Turned) -> bool {
    turned.entry.path == "section[].casing.shoe"
}
