//! `calc`: one formula on its own, or the list of all.

use crate::args;
use crate::failure::{Failure, fault};
use crate::{HOLDS, print};
use rigwright_papers::formulas;
use rigwright_papers::json::{self, Fault};
use rigwright_physics::{FormulaRecord, Range, Symbol, record, records};
use rigwright_units::{System, parse, show_exact};
use rigwright_wellfile::nearest;

pub(super) fn run(args: &args::Calc) -> Result<u8, Failure> {
    let units = args.form.units;
    let Some(name) = &args.name else {
        if args.form.json {
            print::raw(json::list(units).as_bytes())?;
        } else {
            print::text(&formulas::list())?;
        }
        return Ok(HOLDS);
    };
    let record = find(name)?;
    if args.inputs.is_empty() && record.symbols.iter().any(|symbol| symbol.default.is_none()) {
        if args.form.json {
            print::raw(json::formula(record, units).as_bytes())?;
        } else {
            print::text(&formulas::needs(record, units))?;
        }
        return Ok(HOLDS);
    }
    let inputs = inputs(record, &args.inputs, units).map_err(Failure::Typed)?;
    let value = (record.from_keys)(&inputs);
    if args.form.json {
        print::raw(json::worked(record, &inputs, value, units).as_bytes())?;
    } else {
        print::text(&formulas::worked(record, &inputs, value, units))?;
    }
    Ok(HOLDS)
}

fn find(name: &str) -> Result<&'static FormulaRecord, Fault> {
    record(name).ok_or_else(|| {
        let message = format!("there is no formula `{name}`");
        let plain = name.to_lowercase().replace([' ', '_'], "-");
        let holding: Vec<String> = records()
            .filter(|record| !plain.is_empty() && record.slug.contains(&plain))
            .map(|record| format!("`{}`", record.slug))
            .take(6)
            .collect();
        let help = match nearest(name, records().map(|record| record.slug)) {
            Some(near) => format!("did you mean `{near}`? `rigwright calc` lists them all"),
            None if !holding.is_empty() => format!("its name may be {}; `rigwright calc` lists them all", holding.join(", ")),
            None => "`rigwright calc` lists them all".to_owned(),
        };
        fault(message, help)
    })
}

/// The inputs in the order of the record, or everything that is wrong with them. [SI]
fn inputs(record: &FormulaRecord, typed: &[String], units: System) -> Result<Vec<f64>, Vec<Fault>> {
    let mut faults = Vec::new();
    let mut given: Vec<(&str, Option<f64>)> = Vec::new();
    for word in typed {
        let Some((key, text)) = word.split_once('=') else {
            faults.push(fault(format!("`{word}` is not an input"), "write key=\"value unit\", such as density=\"10 ppg\""));
            continue;
        };
        let Some(symbol) = symbol(record, key.trim()) else {
            faults.push(unknown_key(record, key.trim()));
            continue;
        };
        if given.iter().any(|(known, _)| *known == symbol.key) {
            faults.push(fault(format!("`{}` is given twice", symbol.key), "leave one of them"));
            continue;
        }
        match value(symbol, text, units) {
            Ok(value) => given.push((symbol.key, Some(value))),
            Err(fault) => {
                given.push((symbol.key, None));
                faults.push(fault);
            }
        }
    }
    let mut inputs = Vec::with_capacity(record.symbols.len());
    for symbol in record.symbols {
        match given.iter().find(|(key, _)| *key == symbol.key) {
            Some((_, value)) => inputs.extend(value),
            None => match symbol.default {
                Some(default) => inputs.push(default),
                None => faults.push(missing(symbol)),
            },
        }
    }
    if faults.is_empty() { Ok(inputs) } else { Err(faults) }
}

/// A symbol by its key, with hyphens for low lines where somebody prefers them, or by its sign.
fn symbol<'a>(record: &'a FormulaRecord, key: &str) -> Option<&'a Symbol> {
    record.symbol(&key.replace('-', "_")).or_else(|| record.symbols.iter().find(|symbol| symbol.sign == key))
}

fn unknown_key(record: &FormulaRecord, key: &str) -> Fault {
    let keys: Vec<String> = record.symbols.iter().map(|symbol| format!("`{}`", symbol.key)).collect();
    let all = format!("it takes {}", keys.join(", "));
    let help = match nearest(key, record.symbols.iter().map(|symbol| symbol.key)) {
        Some(near) => format!("did you mean `{near}`? {all}"),
        None => all,
    };
    fault(format!("{} has no input `{key}`", record.slug), help)
}

fn value(symbol: &Symbol, text: &str, units: System) -> Result<f64, Fault> {
    let value = parse(text, symbol.kind).map_err(|error| fault(format!("`{}`: {error}", symbol.key), error.help()))?;
    if symbol.must.contains(value) {
        return Ok(value);
    }
    let message = format!("`{}`: `{}` is out of range", symbol.key, text.trim());
    Err(fault(message, format!("{} must be {}", symbol.meaning.trim(), bounds(&symbol.must, symbol, units))))
}

fn bounds(range: &Range, symbol: &Symbol, units: System) -> String {
    let show = |value: f64| show_exact(value, symbol.kind, units);
    let low =
        range.low.is_finite().then(|| format!("{} {}", if range.low_included { "at least" } else { "above" }, show(range.low)));
    let high =
        range.high.is_finite().then(|| format!("{} {}", if range.high_included { "at most" } else { "below" }, show(range.high)));
    let both: Vec<String> = low.into_iter().chain(high).collect();
    if both.is_empty() { "a finite number".to_owned() } else { both.join(" and ") }
}

fn missing(symbol: &Symbol) -> Fault {
    let example = rigwright_units::example(symbol.kind);
    fault(
        format!("`{}` is missing: {}", symbol.key, symbol.meaning.trim()),
        format!("add {}=\"...\"; a {} is written e.g. {example}", symbol.key, symbol.kind.name()),
    )
}
