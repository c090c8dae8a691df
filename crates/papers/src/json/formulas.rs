//! Formulas, their list and one of them with its numbers put in.

use super::working::StepJson;
use super::{FORMAT, Units, in_unit, print};
use rigwright_physics::{FormulaRecord, Law, Range, Symbol, records};
use rigwright_units::{Kind, System, unit};
use serde::Serialize;

/// Every formula.
pub fn list(units: System) -> String {
    let formulas = records().map(|record| FormulaJson::of(record, units)).collect();
    print(&ListDocument { format: FORMAT, units: Units::of(units), formulas })
}

/// One formula and what it needs.
pub fn formula(record: &'static FormulaRecord, units: System) -> String {
    print(&ListDocument { format: FORMAT, units: Units::of(units), formulas: vec![FormulaJson::of(record, units)] })
}

/// A formula with its numbers put in.
pub fn worked(record: &'static FormulaRecord, inputs: &[f64], value: f64, units: System) -> String {
    print(&WorkedDocument {
        format: FORMAT,
        units: Units::of(units),
        formula: FormulaJson::of(record, units),
        step: StepJson::of(record, inputs, value, units),
    })
}

#[derive(Serialize)]
struct ListDocument {
    format: u32,
    units: Units,
    formulas: Vec<FormulaJson>,
}

#[derive(Serialize)]
struct WorkedDocument {
    format: u32,
    units: Units,
    formula: FormulaJson,
    step: StepJson,
}

/// A formula as a review names it.
#[derive(Serialize)]
pub(super) struct FormulaName {
    slug: &'static str,
    title: &'static str,
    equation: &'static str,
    source: &'static str,
}

impl FormulaName {
    pub(super) fn of(record: &FormulaRecord) -> FormulaName {
        FormulaName { slug: record.slug, title: record.title.trim(), equation: record.equation, source: record.source }
    }
}

#[derive(Serialize)]
struct FormulaJson {
    slug: &'static str,
    system: &'static str,
    title: &'static str,
    equation: &'static str,
    hidden_units: Option<&'static str>,
    source: &'static str,
    symbols: Vec<SymbolJson>,
    result: ResultJson,
}

#[derive(Serialize)]
struct SymbolJson {
    key: &'static str,
    sign: &'static str,
    meaning: &'static str,
    kind: &'static str,
    unit: &'static str,
    must: RangeJson,
    valid: RangeJson,
    default: Option<f64>,
}

#[derive(Serialize)]
struct ResultJson {
    sign: &'static str,
    meaning: &'static str,
    kind: &'static str,
    unit: &'static str,
}

/// An end that is `null` is open without bound.
#[derive(Serialize)]
pub(super) struct RangeJson {
    low: Option<f64>,
    high: Option<f64>,
    low_included: bool,
    high_included: bool,
}

impl RangeJson {
    pub(super) fn of(range: &Range, kind: Kind, units: System) -> RangeJson {
        let end = |value: f64| value.is_finite().then(|| in_unit(value, kind, units));
        RangeJson {
            low: end(range.low),
            high: end(range.high),
            low_included: range.low_included,
            high_included: range.high_included,
        }
    }
}

impl FormulaJson {
    fn of(record: &'static FormulaRecord, units: System) -> FormulaJson {
        let symbol = |symbol: &'static Symbol| SymbolJson {
            key: symbol.key,
            sign: symbol.sign,
            meaning: symbol.meaning.trim(),
            kind: symbol.kind.name(),
            unit: unit(symbol.kind, units).symbol,
            must: RangeJson::of(&symbol.must, symbol.kind, units),
            valid: RangeJson::of(&symbol.valid, symbol.kind, units),
            default: symbol.default.map(|value| in_unit(value, symbol.kind, units)),
        };
        FormulaJson {
            slug: record.slug,
            system: record.system(),
            title: record.title.trim(),
            equation: record.equation,
            hidden_units: match record.law {
                Law::Homogeneous => None,
                Law::Empirical(units) => Some(units),
            },
            source: record.source,
            symbols: record.symbols.iter().map(symbol).collect(),
            result: ResultJson {
                sign: record.result.sign,
                meaning: record.result.meaning.trim(),
                kind: record.result.kind.name(),
                unit: unit(record.result.kind, units).symbol,
            },
        }
    }
}
