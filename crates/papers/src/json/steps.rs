//! Steps ready to follow.

use super::working::{LineJson, line_json};
use super::{FORMAT, Units, depth, in_unit, print};
use jiff::Timestamp;
use rigwright_margins::steps::{Block, Cell, METHODS, Origin, Procedure};
use rigwright_units::{System, unit};
use rigwright_well::Fit;
use serde::Serialize;

/// The methods with their inputs.
pub fn methods() -> String {
    let one = |method: &&rigwright_margins::steps::Method| MethodJson {
        method: method.slug,
        title: method.title,
        asks: method.asks,
        inputs: method
            .inputs
            .iter()
            .map(|input| InputJson {
                key: input.key,
                kind: input.kind.name(),
                meaning: input.meaning,
                otherwise: input.otherwise,
            })
            .collect(),
    };
    print(&MethodsJson { format: FORMAT, methods: METHODS.iter().map(one).collect() })
}

#[derive(Serialize)]
struct MethodsJson {
    format: u32,
    methods: Vec<MethodJson>,
}

#[derive(Serialize)]
struct MethodJson {
    method: &'static str,
    title: &'static str,
    asks: &'static str,
    inputs: Vec<InputJson>,
}

#[derive(Serialize)]
struct InputJson {
    key: &'static str,
    kind: &'static str,
    meaning: &'static str,
    otherwise: Option<&'static str>,
}

/// The steps of a method.
pub fn steps(fit: &Fit, procedure: &Procedure, as_of: Timestamp, units: System) -> String {
    let situation = &procedure.situation;
    let used = procedure.used.iter().map(|used| UsedJson {
        key: used.key,
        meaning: used.meaning,
        value: in_unit(used.value, used.kind, units),
        unit: unit(used.kind, units).symbol,
        otherwise: match used.origin {
            Origin::Typed => None,
            Origin::Otherwise(source) => Some(source),
        },
    });
    print(&Document {
        format: FORMAT,
        units: Units::of(units),
        well: &fit.well.name,
        rig: &fit.rig.name,
        as_of: as_of.to_string(),
        method: procedure.method,
        section: fit.well.sections.get(situation.section).map(|section| section.name.as_str()),
        hole_depth: depth(situation.hole_depth, units),
        bit_depth: depth(situation.bit_depth, units),
        rests_on: used.collect(),
        short: procedure.short,
        blocks: procedure.blocks.iter().map(|block| block_json(block, units)).collect(),
        cautions: procedure.cautions,
        working: procedure.working.lines.iter().map(|line| line_json(line, units)).collect(),
    })
}

#[derive(Serialize)]
struct Document<'a> {
    format: u32,
    units: Units,
    well: &'a str,
    rig: &'a str,
    as_of: String,
    method: &'static str,
    section: Option<&'a str>,
    hole_depth: f64,
    bit_depth: f64,
    rests_on: Vec<UsedJson>,
    short: bool,
    blocks: Vec<BlockJson<'a>>,
    cautions: &'static [&'static str],
    working: Vec<LineJson<'a>>,
}

#[derive(Serialize)]
struct UsedJson {
    key: &'static str,
    meaning: &'static str,
    value: f64,
    unit: &'static str,
    otherwise: Option<&'static str>,
}

#[derive(Serialize)]
#[serde(tag = "block", rename_all = "lowercase")]
enum BlockJson<'a> {
    Heading { text: &'static str },
    Say { text: &'a str },
    Warn { text: &'a str },
    Figure { name: &'static str, value: f64, unit: &'static str },
    Table { title: &'static str, columns: Vec<ColumnJson>, rows: Vec<Vec<CellJson>> },
}

#[derive(Serialize)]
struct ColumnJson {
    name: &'static str,
    unit: Option<&'static str>,
}

/// A number, words, or `null` where nobody knows.
#[derive(Serialize)]
#[serde(untagged)]
enum CellJson {
    Value(f64),
    Words(&'static str),
    Blank(()),
}

fn block_json(block: &Block, units: System) -> BlockJson<'_> {
    match block {
        Block::Heading(text) => BlockJson::Heading { text },
        Block::Say(text) => BlockJson::Say { text },
        Block::Warn(text) => BlockJson::Warn { text },
        Block::Figure(figure) => BlockJson::Figure {
            name: figure.name,
            value: in_unit(figure.value, figure.kind, units),
            unit: unit(figure.kind, units).symbol,
        },
        Block::Table(table) => BlockJson::Table {
            title: table.title,
            columns: table
                .columns
                .iter()
                .map(|(name, kind)| ColumnJson { name, unit: kind.map(|kind| unit(kind, units).symbol) })
                .collect(),
            rows: table
                .rows
                .iter()
                .map(|row| {
                    let cell = |(cell, (_, kind)): (&Cell, &(&str, Option<_>))| match (cell, kind) {
                        (Cell::Value(value), Some(kind)) => CellJson::Value(in_unit(*value, *kind, units)),
                        (Cell::Words(words), _) => CellJson::Words(words),
                        (Cell::Value(_), None) | (Cell::Blank, _) => CellJson::Blank(()),
                    };
                    row.iter().zip(&table.columns).map(cell).collect()
                })
                .collect(),
        },
    }
}
