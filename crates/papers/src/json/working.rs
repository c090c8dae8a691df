//! The working of a figure.

use super::formulas::RangeJson;
use super::review::{AnswerJson, Naming, answer};
use super::{FORMAT, Units, depth, in_unit, print};
use crate::working::{equation_unit, put_in};
use rigwright_margins::Explained;
use rigwright_physics::{FormulaRecord, Line};
use rigwright_units::{System, unit};
use rigwright_well::Fit;
use serde::Serialize;

/// The way to a figure with the answer that it leads to.
pub fn explained(fit: &Fit, explained: &Explained, units: System) -> String {
    let asked = &explained.asked;
    print(&Document {
        format: FORMAT,
        units: Units::of(units),
        well: &fit.well.name,
        rig: &fit.rig.name,
        asks: asked.question.asks,
        assumes: asked.question.assumes,
        answer: answer(&Naming { fit, units }, asked),
        working: explained.working.lines.iter().map(|line| line_json(line, units)).collect(),
    })
}

#[derive(Serialize)]
struct Document<'a> {
    format: u32,
    units: Units,
    well: &'a str,
    rig: &'a str,
    asks: &'static str,
    assumes: &'static [&'static str],
    answer: AnswerJson<'a>,
    working: Vec<LineJson<'a>>,
}

#[derive(Serialize)]
#[serde(tag = "line", rename_all = "lowercase")]
pub(super) enum LineJson<'a> {
    Heading { text: &'a str },
    Note { text: &'a str },
    Given { what: &'a str, value: f64, unit: &'static str },
    Stretch { what: &'a str, top: f64, bottom: f64 },
    Step(StepJson),
    Table { title: &'a str, columns: Vec<ColumnJson<'a>>, rows: Vec<Vec<f64>> },
    Root(RootJson),
}

#[derive(Serialize)]
pub(super) struct ColumnJson<'a> {
    name: &'a str,
    unit: &'static str,
}

#[derive(Serialize)]
pub(super) struct RootJson {
    equation: &'static str,
    sign: &'static str,
    meaning: &'static str,
    value: f64,
    unit: &'static str,
    residual: f64,
    residual_unit: &'static str,
}

/// One formula with its numbers.
#[derive(Serialize)]
pub(super) struct StepJson {
    formula: &'static str,
    title: &'static str,
    equation: &'static str,
    put_in: Option<String>,
    inputs: Vec<InputJson>,
    result: OutputJson,
    source: &'static str,
    inside_range: bool,
}

#[derive(Serialize)]
struct InputJson {
    key: &'static str,
    sign: &'static str,
    meaning: &'static str,
    value: f64,
    unit: &'static str,
    equation_value: f64,
    equation_unit: &'static str,
    valid: RangeJson,
    inside_range: bool,
}

#[derive(Serialize)]
struct OutputJson {
    sign: &'static str,
    meaning: &'static str,
    value: f64,
    unit: &'static str,
    equation_value: f64,
    equation_unit: &'static str,
}

impl StepJson {
    pub(super) fn of(record: &'static FormulaRecord, inputs: &[f64], value: f64, units: System) -> StepJson {
        let symbols = record.symbols.iter().zip(inputs).map(|(symbol, value)| {
            let wanted = equation_unit(record, symbol.kind);
            InputJson {
                key: symbol.key,
                sign: symbol.sign,
                meaning: symbol.meaning.trim(),
                value: in_unit(*value, symbol.kind, units),
                unit: unit(symbol.kind, units).symbol,
                equation_value: wanted.from_si(*value),
                equation_unit: wanted.symbol,
                valid: RangeJson::of(&symbol.valid, symbol.kind, units),
                inside_range: symbol.valid.contains(*value),
            }
        });
        let result = &record.result;
        let wanted = equation_unit(record, result.kind);
        StepJson {
            formula: record.slug,
            title: record.title.trim(),
            equation: record.equation,
            put_in: put_in(record, inputs),
            inputs: symbols.collect(),
            result: OutputJson {
                sign: result.sign,
                meaning: result.meaning.trim(),
                value: in_unit(value, result.kind, units),
                unit: unit(result.kind, units).symbol,
                equation_value: wanted.from_si(value),
                equation_unit: wanted.symbol,
            },
            source: record.source,
            inside_range: record.outside_valid(inputs).is_empty(),
        }
    }
}

pub(super) fn line_json(line: &Line, units: System) -> LineJson<'_> {
    match line {
        Line::Heading(text) => LineJson::Heading { text },
        Line::Note(text) => LineJson::Note { text },
        Line::Given { what, value, kind } => {
            LineJson::Given { what, value: in_unit(*value, *kind, units), unit: unit(*kind, units).symbol }
        }
        Line::Stretch { what, top, bottom } => LineJson::Stretch { what, top: depth(*top, units), bottom: depth(*bottom, units) },
        Line::Step { record, inputs, value } => LineJson::Step(StepJson::of(record, inputs, *value, units)),
        Line::Table { title, columns, rows } => LineJson::Table {
            title,
            columns: columns.iter().map(|(name, kind)| ColumnJson { name, unit: unit(*kind, units).symbol }).collect(),
            rows: rows
                .iter()
                .map(|row| row.iter().zip(*columns).map(|(value, (_, kind))| in_unit(*value, *kind, units)).collect())
                .collect(),
        },
        Line::Root(root) => LineJson::Root(RootJson {
            equation: root.equation,
            sign: root.sign,
            meaning: root.meaning,
            value: in_unit(root.value, root.kind, units),
            unit: unit(root.kind, units).symbol,
            residual: in_unit(root.residual, root.residual_kind, units),
            residual_unit: unit(root.residual_kind, units).symbol,
        }),
    }
}
