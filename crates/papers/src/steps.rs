//! Steps ready to follow, as text: what they rest on, the tables, the cautions.

use crate::sheet::CAUTIONS;
use crate::subject::{as_of as moment, section_name};
use crate::text::{Align, Style, Text};
use crate::working::heads;
use jiff::Timestamp;
use rigwright_margins::steps::{Block, Cell, METHODS, Method, Origin, Procedure, Table};
use rigwright_physics::Kind;
use rigwright_units::{System, show, show_number, unit};
use rigwright_well::Fit;

/// Column at which figures stand.
const FIGURES: usize = 58;

/// The methods, and what each takes.
pub fn methods() -> Text {
    let mut text = Text::default();
    for method in METHODS {
        text.hanging(20, method.slug.into(), method.asks);
    }
    text.blank();
    text.plain("`rigwright steps WELL METHOD key=\"value unit\" ...` makes the steps; `--needs` says what a method takes.");
    text
}

/// What a method takes.
pub fn needs(method: &Method) -> Text {
    let mut text = Text::default();
    text.plain(format!("{}: {}", method.slug, method.title));
    text.paragraph(2, Style::Plain, method.asks);
    if method.inputs.is_empty() {
        text.paragraph(2, Style::Plain, "Nothing is typed: the well file says it all.");
    }
    for input in method.inputs {
        let otherwise = input.otherwise.map_or_else(|| "must be typed".to_owned(), |otherwise| format!("else: {otherwise}"));
        let example = rigwright_units::example(input.kind);
        text.hanging(18, format!("  {}", input.key).into(), &format!("{}, such as {example}; {otherwise}", input.meaning));
    }
    text
}

/// Steps with their day and units.
pub fn steps(fit: &Fit, procedure: &Procedure, as_of: Timestamp, units: System) -> Text {
    let mut text = Text::default();
    text.plain(format!("{} on {}: {}", fit.well.name, fit.rig.name, procedure.title));
    text.rule();
    text.paragraph(0, Style::Strong, CAUTIONS[0]);
    let depth = |depth: f64| show(depth, Kind::Depth, units);
    let situation = &procedure.situation;
    let (bit, hole) = (depth(situation.bit_depth), depth(situation.hole_depth));
    let section = section_name(fit, Some(situation.section));
    text.hanging(12, "where".into(), &format!("{section}, hole at {hole}, bit at {bit}; depths from {}", fit.well.datum));
    let mud = fit.well.sections.get(situation.section).map(|section| section.mud.weight);
    text.hanging(12, "mud".into(), &mud.map_or_else(String::new, |weight| show(weight, Kind::Density, units)));
    text.hanging(12, "made for".into(), &moment(as_of));
    for used in &procedure.used {
        let value = show(used.value, used.kind, units);
        let origin = match used.origin {
            Origin::Typed => "as typed",
            Origin::Otherwise(source) => source,
        };
        text.hanging(12, "rests on".into(), &format!("{}: {value} ({origin})", used.meaning));
    }
    if procedure.used.iter().any(|used| matches!(used.origin, Origin::Otherwise(source) if source.contains("design kick"))) {
        text.paragraph(0, Style::Strong, "PLAN: readings of the design kick stand where none were typed.");
    }
    text.blank();
    for block in &procedure.blocks {
        lay(&mut text, block, units);
    }
    text.blank();
    text.heading("caution");
    for caution in procedure.cautions {
        text.paragraph(0, Style::Plain, &sentence(caution));
    }
    text
}

fn lay(text: &mut Text, block: &Block, units: System) {
    match block {
        Block::Heading(title) => {
            text.blank();
            text.heading(title);
        }
        Block::Say(words) => text.paragraph(2, Style::Plain, words),
        Block::Warn(words) => text.paragraph(2, Style::Strong, words),
        Block::Figure(figure) => {
            let value = show(figure.value, figure.kind, units);
            text.hanging(FIGURES, format!("  {}", figure.name).into(), &value);
        }
        Block::Table(table) => rows(text, table, units),
    }
}

fn rows(text: &mut Text, table: &Table, units: System) {
    text.blank();
    text.paragraph(2, Style::Plain, table.title);
    if table.columns.iter().all(|(_, kind)| kind.is_none()) {
        return words(text, table);
    }
    let columns: Vec<(&str, Kind)> = table.columns.iter().map(|(name, kind)| (*name, kind.unwrap_or(Kind::Count))).collect();
    let mut printed = heads(&columns);
    printed.push(table.columns.iter().map(|(_, kind)| kind.map_or("", |kind| unit(kind, units).symbol).to_owned()).collect());
    for row in &table.rows {
        let cell = |(cell, (_, kind)): (&Cell, &(&str, Option<Kind>))| match (cell, kind) {
            (Cell::Value(value), Some(kind)) => show_number(*value, *kind, units),
            (Cell::Words(words), _) => (*words).to_owned(),
            (Cell::Value(_), None) | (Cell::Blank, _) => "-".to_owned(),
        };
        printed.push(row.iter().zip(&table.columns).map(cell).collect());
    }
    text.table(4, &vec![Align::Right; columns.len()], &printed);
    text.blank();
}

/// A table of words: row by row, column by column.
fn words(text: &mut Text, table: &Table) {
    for row in &table.rows {
        let cell = |cell: &Cell| match cell {
            Cell::Words(words) => *words,
            Cell::Value(_) | Cell::Blank => "?",
        };
        let Some((first, others)) = row.split_first() else { continue };
        let name = table.columns.first().map_or("", |(name, _)| *name);
        text.paragraph(4, Style::Plain, &format!("{name} {}", cell(first)));
        for (other, (column, _)) in others.iter().zip(table.columns.iter().skip(1)) {
            text.hanging(42, format!("      {column}").into(), cell(other));
        }
    }
}

/// With a capital and a full stop.
pub(crate) fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| format!("{}{}.", first.to_uppercase(), letters.as_str()))
}
