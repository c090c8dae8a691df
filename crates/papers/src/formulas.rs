//! The list of formulas, and one of them on its own with its numbers put in.

use crate::text::{Style, Text, width};
use crate::working::{range_words, step};
use rigwright_physics::{FormulaRecord, Law, Range, records};
use rigwright_units::{System, example, show, show_exact, unit};

/// Every formula, by the part of the trade that it belongs to.
pub fn list() -> Text {
    let mut text = Text::default();
    let mut part = "";
    for record in records() {
        if record.system() != part {
            if !part.is_empty() {
                text.blank();
            }
            part = record.system();
            text.heading(part);
        }
        text.hanging(38, record.slug.into(), record.title);
    }
    text.blank();
    text.plain("rigwright calc NAME                          tells what a formula needs");
    text.plain("rigwright calc NAME key=\"value unit\" ...     works it out");
    text
}

/// What a formula needs: its inputs with their signs, kinds and ranges.
pub fn needs(record: &FormulaRecord, units: System) -> Text {
    let mut text = Text::default();
    text.plain(record.slug);
    text.rule();
    text.paragraph(0, Style::Plain, record.title);
    text.paragraph(4, Style::Plain, record.equation);
    if let Law::Empirical(hidden) = record.law {
        text.paragraph(4, Style::Plain, &format!("its constants want {hidden}"));
    }
    text.blank();
    let longest = record.symbols.iter().map(|symbol| width(symbol.key) + width(symbol.sign)).max().unwrap_or(0);
    for symbol in record.symbols {
        let label = format!("  {} ({})", symbol.key, symbol.sign);
        let mut about = format!("{}, such as {}", symbol.meaning.trim(), example(symbol.kind));
        let ranges = [("must be", &symbol.must), ("vouched for", &symbol.valid)];
        for (words, range) in ranges.into_iter().filter(|(_, range)| **range != Range::ANY) {
            about.push_str(&format!("; {words} {}", range_words(range, symbol.kind, units)));
        }
        if let Some(default) = symbol.default {
            about.push_str(&format!("; {} unless given", show_exact(default, symbol.kind, units)));
        }
        text.hanging(longest + 7, label.as_str().into(), &about);
    }
    text.blank();
    let result = &record.result;
    let symbol = unit(result.kind, units).symbol;
    let in_unit = if symbol.is_empty() { String::new() } else { format!(", in {symbol}") };
    text.plain(format!("gives {}: {}{in_unit}", result.sign, result.meaning.trim()));
    text.paragraph(0, Style::Faint, &format!("source: {}", record.source));
    text
}

/// A formula with its numbers put in.
pub fn worked(record: &FormulaRecord, inputs: &[f64], value: f64, units: System) -> Text {
    let mut text = Text::default();
    text.plain(format!("{}: {}", record.result.meaning.trim(), show(value, record.result.kind, units)));
    text.rule();
    step(&mut text, record, inputs, value, units);
    text.lines.pop();
    text
}
