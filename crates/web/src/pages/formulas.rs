//! Every formula on its own: the list, and one with numbers put in.

use crate::Server;
use crate::ask::{Ask, Reply};
use crate::frame::{Frame, sorry};
use crate::pages::working;
use maud::{Markup, html};
use rigwright_papers::view::range_text;
use rigwright_physics::{FormulaRecord, Law, Range, record, records};
use rigwright_units::{System, example, parse, show, show_exact};

pub(crate) fn list(server: &Server, ask: &Ask) -> Reply {
    let mut parts: Vec<(&str, Vec<&FormulaRecord>)> = Vec::new();
    for record in records() {
        match parts.iter_mut().find(|(part, _)| *part == record.system()) {
            Some((_, list)) => list.push(record),
            None => parts.push((record.system(), vec![record])),
        }
    }
    let body = html! {
        h1 { "Formulas" }
        p { "Every formula of the program, with its source. Open one to put numbers in." }
        @for (part, list) in &parts {
            details {
                summary { (part) " (" (list.len()) ")" }
                dl.list { @for record in list { div { dt { a href={ "/formulas/" (record.slug) } { (record.slug) } } dd { (record.title.trim()) } } } }
            }
        }
    };
    Reply::page(Frame::new("Formulas").page(server, ask, &body))
}

pub(crate) fn one(server: &Server, ask: &Ask) -> Reply {
    let slug = ask.path.rsplit('/').next().unwrap_or_default();
    let Some(record) = record(slug) else {
        return sorry(server, ask, 404, "There is no such formula", "The list of formulas has them all.");
    };
    let units = ask.units();
    let asked = record.symbols.iter().any(|symbol| ask.get(symbol.key).is_some());
    let body = html! {
        p.back { a href="/formulas" { "← all formulas" } }
        h1 { (record.slug) }
        p { (record.title.trim()) }
        p.equation { (record.equation) }
        @if let Law::Empirical(hidden) = record.law { p { "Its constants want " (hidden) "." } }
        p.faint { "Source: " (record.source) }
        form.narrow method="get" action=(ask.path) {
            @for symbol in record.symbols {
                @let id = format!("in.{}", symbol.key);
                label for=(id) { i { (symbol.sign) } " " (symbol.meaning.trim()) }
                input #(id) name=(symbol.key) value=(ask.get(symbol.key).unwrap_or_default()) placeholder=(hint(record, symbol.key, units)) autocomplete="off" aria-describedby={ (id) ".range" };
                span.faint.small #{ (id) ".range" } { (ranges(symbol, units)) }
            }
            button { "Work it out" }
        }
        @if asked { section.weakest aria-label="result" { (result(record, ask, units)) } }
    };
    Reply::page(Frame::new(record.slug).page(server, ask, &body))
}

fn hint(record: &FormulaRecord, key: &str, units: System) -> String {
    let symbol = record.symbol(key);
    symbol.map_or_else(String::new, |symbol| match symbol.default {
        Some(default) => format!("{} unless given", show_exact(default, symbol.kind, units)),
        None => example(symbol.kind).to_string(),
    })
}

fn ranges(symbol: &rigwright_physics::Symbol, units: System) -> String {
    let words = [("must be", &symbol.must), ("vouched for", &symbol.valid)];
    let told = words.into_iter().filter(|(_, range)| **range != Range::ANY);
    told.map(|(word, range)| format!("{word} {}", range_text(range, symbol.kind, units))).collect::<Vec<_>>().join("; ")
}

fn result(record: &'static FormulaRecord, ask: &Ask, units: System) -> Markup {
    let mut inputs = Vec::new();
    let mut wrong = Vec::new();
    for symbol in record.symbols {
        let text = ask.get(symbol.key).unwrap_or_default().trim();
        match (text.is_empty(), symbol.default) {
            (true, Some(default)) => inputs.push(default),
            (true, None) => wrong.push(format!("{} is missing", symbol.meaning.trim())),
            (false, _) => match parse(text, symbol.kind) {
                Ok(value) if symbol.must.contains(value) => inputs.push(value),
                Ok(_) => wrong.push(format!("{}: {text} is out of range: {}", symbol.meaning.trim(), ranges(symbol, units))),
                Err(error) => wrong.push(format!("{}: {error}; {}", symbol.meaning.trim(), error.help())),
            },
        }
    }
    if !wrong.is_empty() {
        return html! { ul role="alert" { @for words in &wrong { li { (words) } } } };
    }
    let value = (record.from_keys)(&inputs);
    html! {
        p.big { (record.result.meaning.trim()) ": " b { (show(value, record.result.kind, units)) } }
        (working::step(record, &inputs, value, units, false))
    }
}
