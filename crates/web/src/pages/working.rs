//! A working as markup: formulas, numbers put in, sources and ranges, to be followed with a pocket calculator.

use maud::{Markup, html};
use rigwright_papers::view::step_words;
use rigwright_physics::{FormulaRecord, Line, Working};
use rigwright_units::{Kind, System, show, show_exact, show_number, unit};
use std::collections::BTreeSet;

/// The lines of a working.
pub(crate) fn working(working: &Working, units: System) -> Markup {
    let mut told: BTreeSet<&str> = BTreeSet::new();
    html! {
        div.working {
            @for line in &working.lines {
                @match line {
                    Line::Heading(title) => { h3 { (title) } }
                    Line::Note(note) => { p { (note) } }
                    Line::Given { what, value, kind } => { p.given { (what) ": " b { (show_exact(*value, *kind, units)) } } }
                    Line::Stretch { what, top, bottom } => {
                        p.stretch { (what) ", from " (show(*top, Kind::Depth, units)) " to " (show(*bottom, Kind::Depth, units)) }
                    }
                    Line::Step { record, inputs, value } => { (step(record, inputs, *value, units, told.insert(record.slug))) }
                    Line::Table { title, columns, rows } => { (table(title, columns, rows, units)) }
                    Line::Root(root) => {
                        div.step {
                            p { "Solved for " i { (root.sign) } ": " (root.meaning.trim()) }
                            p.equation { (root.equation) }
                            p.result { (root.sign) " = " (show_exact(root.value, root.kind, units)) }
                            p.faint { "put in, left side less right side is " (show_exact(root.residual, root.residual_kind, units)) }
                        }
                    }
                }
            }
        }
    }
}

/// One formula: equation, numbers, result, source and range; only the numbers where it was told before.
pub(crate) fn step(record: &FormulaRecord, inputs: &[f64], value: f64, units: System, first: bool) -> Markup {
    let words = step_words(record, inputs, value, units);
    html! {
        div.step {
            p.formula { a href={ "/formulas/" (record.slug) } { (record.slug) } @if first { span.faint { " — " (record.title.trim()) } } }
            @if first { p.equation { (record.equation) } }
            dl.signs {
                @for [sign, read, wanted, meaning] in &words.signs {
                    div { dt { i { (sign) } } dd { b { (read) } @if !wanted.is_empty() { " (" (wanted) ")" } span.faint { " " (meaning) } } }
                }
            }
            @for result in &words.results { p.result { (result) } }
            @if first { p.faint { "Source: " (record.source) } }
            @for range in &words.ranges { p.faint { (range) } }
        }
    }
}

fn table(title: &str, columns: &[(&str, Kind)], rows: &[Vec<f64>], units: System) -> Markup {
    html! {
        details open[rows.len() <= 12] {
            summary { (title) " (" (rows.len()) " rows)" }
            div.scroll tabindex="0" role="region" aria-label=(title) {
                table.numbers {
                    thead { tr { @for (name, kind) in columns { th scope="col" { (name) " " span.faint { (unit(*kind, units).symbol) } } } } }
                    tbody { @for row in rows {
                        tr { @for (value, (_, kind)) in row.iter().zip(columns) { td { (show_number(*value, *kind, units)) } } }
                    } }
                }
            }
        }
    }
}
