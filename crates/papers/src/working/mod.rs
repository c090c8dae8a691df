//! The working of a figure as text, so that a person can follow it with a pocket calculator: each formula with its
//! signs, the numbers put in, in the reader's units and in those that the equation wants, the result, the source, and
//! whether the numbers lie inside the range that the source vouches for.

mod step;

pub use step::equation_unit;
pub(crate) use step::{in_numbers, put_in, range_words, ranges, step};

use crate::sheet::CAUTIONS;
use crate::subject::{section_name, situation};
use crate::text::{Align, Style, Text, wrap};
use rigwright_margins::{Answer, Asked, Explained, Judged, Place};
use rigwright_physics::{Kind, Line, Root, Working};
use rigwright_units::{System, show, show_down, show_exact, show_exact_in, show_number, show_up, unit};
use rigwright_well::Fit;
use std::collections::BTreeSet;
use step::{number_in, step_again};

/// Rows of a table that are printed unless all are wanted: half from its head, half from its end.
const MOST_ROWS: usize = 40;
/// Width at which the name of a column goes on below.
const HEAD: usize = 12;

/// The way to a figure with the answer that it leads to.
pub fn explained(fit: &Fit, explained: &Explained, units: System, all: bool) -> Text {
    let asked = &explained.asked;
    let mut text = Text::default();
    text.plain(format!("{} on {}: {}", fit.well.name, fit.rig.name, asked.question.title));
    text.rule();
    if asked.question.system() == "control" {
        text.paragraph(0, Style::Strong, CAUTIONS[0]);
    }
    text.paragraph(0, Style::Plain, asked.question.asks);
    let section = section_name(fit, asked.section);
    text.hanging(10, "where".into(), &format!("{section}, {}", situation(fit, asked, units)));
    for line in answer_lines(&asked.answer, asked.question.kind, units) {
        text.hanging(10, "answer".into(), &line);
    }
    for assumes in asked.question.assumes {
        text.hanging(10, "assumed".into(), assumes);
    }
    text.blank();
    lines(&mut text, &explained.working, units, all);
    text.plain("so");
    text.paragraph(4, Style::Plain, &conclusion(asked, units));
    text
}

/// A working on its own, below a paper.
pub fn workings(working: &Working, units: System, all: bool) -> Text {
    let mut text = Text::default();
    lines(&mut text, working, units, all);
    text
}

fn answer_lines(answer: &Answer, kind: Kind, units: System) -> Vec<String> {
    let word = answer.verdict().word();
    match answer {
        Answer::Judged(judged) => vec![format!(
            "{word}: {} of {} ({})",
            show_up(judged.demand, kind, units),
            show_down(judged.limit.capacity, kind, units),
            judged.limit.name
        )],
        Answer::Told(figures) => {
            figures.iter().map(|figure| format!("{}: {}", figure.name, show(figure.value, figure.kind, units))).collect()
        }
        Answer::Missing(missing) => vec![format!("{word}: missing {}", missing.join(", "))],
        Answer::DoesNotArise(why) => vec![format!("{word}: {why}")],
    }
}

/// The judgement in one sentence, with exact figures.
pub(crate) fn conclusion(asked: &Asked, units: System) -> String {
    let kind = asked.question.kind;
    match &asked.answer {
        Answer::Judged(judged) => {
            let Judged { demand, limit, place, .. } = judged;
            let exact = |value: f64| show_exact(value, kind, units);
            let place = match place {
                Place::Surface => String::new(),
                Place::Depth(depth) => format!(" at {}", show(*depth, Kind::Depth, units)),
            };
            let number = |value: f64| number_in(value, unit(kind, units));
            format!(
                "demand {}{place}; capacity {} ({}; {}); wanted reserve {}; room = ({} - {}) / {} = {} reserves: {}",
                exact(*demand),
                exact(limit.capacity),
                limit.name,
                limit.source,
                exact_difference(limit.reserve, kind, units),
                number(limit.capacity),
                number(*demand),
                number_of_difference(limit.reserve, kind, units),
                room(judged.room()),
                asked.verdict().word()
            )
        }
        Answer::Told(_) => "no limit judges these figures".to_owned(),
        Answer::Missing(missing) => format!("unknown until the files give {}", missing.join(", ")),
        Answer::DoesNotArise(why) => format!("the question does not arise: {why}"),
    }
}

/// A difference in the reader's unit: a thermometer scale keeps its nought out of it.
fn number_of_difference(value: f64, kind: Kind, units: System) -> String {
    let unit = unit(kind, units);
    number_in(unit.to_si(value / unit.factor), unit)
}

fn exact_difference(value: f64, kind: Kind, units: System) -> String {
    let unit = unit(kind, units);
    show_exact_in(unit.to_si(value / unit.factor), unit)
}

/// Room in wanted reserves, rounded down.
pub(crate) fn room(room: f64) -> String {
    if room.abs() >= 1000.0 { format!("{room:.0}") } else { format!("{:.2}", (room * 100.0 + 1e-7).floor() / 100.0 + 0.0) }
}

/// Every formula of a working on one line.
pub(crate) fn in_short(working: &Working, units: System) -> Vec<String> {
    let one = |line: &Line| match line {
        Line::Step { record, inputs, value } => {
            Some(format!("{}: {}", record.result.meaning.trim(), in_numbers(record, inputs, *value, units).join("; ")))
        }
        Line::Root(root) => {
            Some(format!("{}: {} = {}", root.meaning.trim(), root.sign, show_exact(root.value, root.kind, units)))
        }
        Line::Given { .. } | Line::Heading(_) | Line::Note(_) | Line::Stretch { .. } | Line::Table { .. } => None,
    };
    working.lines.iter().filter_map(one).collect()
}

fn lines(text: &mut Text, working: &Working, units: System, all: bool) {
    let mut told: BTreeSet<&str> = BTreeSet::new();
    for line in &working.lines {
        match line {
            Line::Heading(title) => text.heading(title),
            Line::Note(note) => text.paragraph(2, Style::Plain, note),
            Line::Given { what, value, kind } => {
                text.paragraph(2, Style::Plain, &format!("{what}: {}", show_exact(*value, *kind, units)));
            }
            Line::Stretch { what, top, bottom } => {
                let depth = |depth: f64| show(depth, Kind::Depth, units);
                text.paragraph(2, Style::Plain, &format!("{what}, from {} to {}", depth(*top), depth(*bottom)));
            }
            Line::Step { record, inputs, value } if told.insert(record.slug) => step(text, record, inputs, *value, units),
            Line::Step { record, inputs, value } => step_again(text, record, inputs, *value, units),
            Line::Table { title, columns, rows } => table(text, title, columns, rows, (units, all)),
            Line::Root(root) => solved(text, root, units),
        }
    }
    text.blank();
}

fn table(text: &mut Text, title: &str, columns: &[(&str, Kind)], rows: &[Vec<f64>], (units, all): (System, bool)) {
    text.paragraph(2, Style::Plain, title);
    let mut printed = heads(columns);
    let under: Vec<String> = columns.iter().map(|(_, kind)| unit(*kind, units).symbol.to_owned()).collect();
    let left_out = if all { 0 } else { rows.len().saturating_sub(MOST_ROWS) };
    printed.push(under);
    for (index, row) in rows.iter().enumerate() {
        let half = MOST_ROWS / 2;
        if left_out > 0 && (half..half + left_out).contains(&index) {
            if index == half {
                printed.push(vec!["...".to_owned()]);
            }
            continue;
        }
        printed.push(row.iter().zip(columns).map(|(value, (_, kind))| show_number(*value, *kind, units)).collect());
    }
    text.table(4, &vec![Align::Right; columns.len()], &printed);
    if left_out > 0 {
        text.paragraph(4, Style::Faint, &format!("{left_out} of {} rows left out; `--all` shows them", rows.len()));
    }
    text.blank();
}

/// Names of columns over each other, word by word where they are long; all end on the same line.
pub(crate) fn heads(columns: &[(&str, Kind)]) -> Vec<Vec<String>> {
    let names: Vec<Vec<String>> = columns.iter().map(|(name, _)| wrap(name, HEAD)).collect();
    let high = names.iter().map(Vec::len).max().unwrap_or(0);
    let word =
        |name: &Vec<String>, line: usize| (line + name.len()).checked_sub(high).map_or_else(String::new, |at| name[at].clone());
    (0..high).map(|line| names.iter().map(|name| word(name, line)).collect()).collect()
}

fn solved(text: &mut Text, root: &Root, units: System) {
    text.paragraph(2, Style::Plain, &format!("solved for {}: {}", root.sign, root.meaning.trim()));
    text.paragraph(6, Style::Plain, root.equation);
    let (value, residual) = (show_exact(root.value, root.kind, units), show_exact(root.residual, root.residual_kind, units));
    text.paragraph(6, Style::Plain, &format!("{} = {value}; put in, left side less right side is {residual}", root.sign));
    text.blank();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn room_is_rounded_down() {
        assert_eq!([room(0.999), room(-0.001), room(2.0), room(0.0)], ["0.99", "-0.01", "2.00", "0.00"]);
    }
}
