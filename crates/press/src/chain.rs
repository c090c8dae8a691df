//! A working as a chain of live cells.

use crate::workbook::Looks;
use rigwright_papers::equation::{Expression, right_side};
use rigwright_papers::working::equation_unit;
use rigwright_physics::{FormulaRecord, Kind, Line, Working};
use rigwright_units::{System, Unit, unit};
use rust_xlsxwriter::{Formula, Worksheet, XlsxError};
use std::collections::{BTreeMap, BTreeSet};

/// How near a printed equation must come to the figure to stand as a live formula.
const NEAR: f64 = 1e-6;

/// A cell that holds a value.
struct Known {
    value: f64,
    kind: Kind,
    /// Key of the input; `None` for a result or a figure from the files.
    key: Option<&'static str>,
    cell: String,
    unit: &'static Unit,
}

/// Writes the lines of a working from row 4 on; gives the names of its inputs with their cells.
pub(crate) fn chain(
    sheet: &mut Worksheet,
    looks: &Looks,
    sheet_name: &str,
    working: &Working,
    units: System,
) -> Result<Vec<(String, String)>, XlsxError> {
    let mut writer = Writer { sheet, looks, sheet_name, row: 3, known: Vec::new(), names: Vec::new(), taken: BTreeSet::new() };
    for line in &working.lines {
        writer.line(line, units)?;
    }
    Ok(writer.names)
}

struct Writer<'a> {
    sheet: &'a mut Worksheet,
    looks: &'a Looks,
    sheet_name: &'a str,
    row: u32,
    known: Vec<Known>,
    names: Vec<(String, String)>,
    taken: BTreeSet<String>,
}

impl Writer<'_> {
    fn line(&mut self, line: &Line, units: System) -> Result<(), XlsxError> {
        match line {
            Line::Heading(title) => {
                self.row += 1;
                self.sheet.write_with_format(self.row, 0, *title, &self.looks.strong)?;
                self.row += 1;
            }
            Line::Note(note) => {
                self.sheet.write_with_format(self.row, 1, note.as_str(), &self.looks.plain)?;
                self.row += 1;
            }
            Line::Given { what, value, kind } => self.number(what, *value, *kind, units)?,
            Line::Stretch { what, top, bottom } => {
                let unit = unit(Kind::Depth, units);
                let text = format!("{what}: {:.1} to {:.1} {}", unit.from_si(*top), unit.from_si(*bottom), unit.symbol);
                self.sheet.write(self.row, 1, text)?;
                self.row += 1;
            }
            Line::Root(root) => {
                self.sheet.write(self.row, 4, format!("solved: {}; stays as it is when an input changes", root.equation))?;
                self.number(root.meaning, root.value, root.kind, units)?;
            }
            Line::Table { title, columns, rows } => self.table(title, columns, rows, units)?,
            Line::Step { record, inputs, value } => self.step(record, inputs, *value)?,
        }
        Ok(())
    }

    /// A figure from the files or of a solution, as a named cell.
    fn number(&mut self, what: &str, value: f64, kind: Kind, units: System) -> Result<(), XlsxError> {
        let unit = unit(kind, units);
        self.sheet.write(self.row, 1, what)?;
        self.sheet.write_with_format(self.row, 2, finite(unit.from_si(value)), &self.looks.input)?;
        self.sheet.write(self.row, 3, unit.symbol)?;
        self.name(what);
        self.known.push(Known { value, kind, key: None, cell: self.cell(), unit });
        self.row += 1;
        Ok(())
    }

    fn table(&mut self, title: &str, columns: &[(&str, Kind)], rows: &[Vec<f64>], units: System) -> Result<(), XlsxError> {
        self.sheet.write_with_format(self.row, 1, title, &self.looks.strong)?;
        self.row += 1;
        for (column, (name, kind)) in (1u16..).zip(columns) {
            self.sheet.write(self.row, column, format!("{name} [{}]", unit(*kind, units).symbol))?;
        }
        self.row += 1;
        for row in rows {
            for (column, (value, (_, kind))) in (1u16..).zip(row.iter().zip(columns)) {
                self.sheet.write(self.row, column, finite(unit(*kind, units).from_si(*value)))?;
            }
            self.row += 1;
        }
        Ok(())
    }

    fn step(&mut self, record: &'static FormulaRecord, inputs: &[f64], value: f64) -> Result<(), XlsxError> {
        self.sheet.write_with_format(self.row, 1, record.title.trim(), &self.looks.strong)?;
        self.sheet.write(self.row, 4, format!("{}; {}", record.equation, record.source))?;
        self.row += 1;
        let mut cells = BTreeMap::new();
        let mut numbers = BTreeMap::new();
        for (index, (symbol, input)) in record.symbols.iter().zip(inputs).enumerate() {
            let unit = equation_unit(record, symbol.kind);
            let name = format!("in{index}");
            numbers.insert(name.clone(), unit.from_si(*input));
            self.sheet.write(self.row, 0, symbol.sign)?;
            self.sheet.write(self.row, 1, symbol.meaning.trim())?;
            self.sheet.write(self.row, 3, unit.symbol)?;
            let shown = finite(unit.from_si(*input));
            if let Some(formula) = self.points_to(*input, symbol.kind, symbol.key, unit) {
                let formula = Formula::new(formula).set_result(shown.to_string());
                self.sheet.write_formula_with_format(self.row, 2, formula, &self.looks.result)?;
            } else {
                self.sheet.write_with_format(self.row, 2, shown, &self.looks.input)?;
                self.name(symbol.key);
                self.known.push(Known { value: *input, kind: symbol.kind, key: Some(symbol.key), cell: self.cell(), unit });
            }
            cells.insert(name, self.cell());
            self.row += 1;
        }
        let unit = equation_unit(record, record.result.kind);
        let shown = finite(unit.from_si(value));
        self.sheet.write(self.row, 0, record.result.sign)?;
        self.sheet.write(self.row, 1, record.result.meaning.trim())?;
        self.sheet.write(self.row, 3, unit.symbol)?;
        match live(record, &numbers, &cells, unit.from_si(value)) {
            Some(formula) => {
                let formula = Formula::new(format!("={formula}")).set_result(shown.to_string());
                self.sheet.write_formula_with_format(self.row, 2, formula, &self.looks.result)?;
            }
            None => {
                self.sheet.write_with_format(self.row, 2, shown, &self.looks.result)?;
                self.sheet.write(self.row, 4, "worked out by the program; stays as it is when an input changes")?;
            }
        }
        self.known.push(Known { value, kind: record.result.kind, key: None, cell: self.cell(), unit });
        self.row += 2;
        Ok(())
    }

    /// The cell of this row that holds its value.
    fn cell(&self) -> String {
        format!("$C${}", self.row + 1)
    }

    /// Names the cell of this row after what it holds.
    fn name(&mut self, what: &str) {
        let words = |text: &str| -> String {
            text.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '_' }).collect()
        };
        // The sheet's words come first: a name of few letters and digits would look like a cell.
        let mut name = format!("{}_{}", words(self.sheet_name), words(what).trim_matches('_'));
        let first = name.clone();
        let mut count = 1;
        while !self.taken.insert(name.clone()) {
            count += 1;
            name = format!("{first}_{count}");
        }
        self.names.push((name, format!("='{}'!{}", self.sheet_name, self.cell())));
    }

    /// The formula that points to an earlier cell with this value: a result or figure of the same kind, or the same input.
    /// Round numbers of other inputs are equal by chance and are not pointed to.
    fn points_to(&self, value: f64, kind: Kind, key: &str, unit: &Unit) -> Option<String> {
        let by_chance = value.abs() < 1e-12 || (value - 1.0).abs() < 1e-12;
        let same = |known: &&Known| {
            known.value.to_bits() == value.to_bits()
                && known.kind == kind
                && match known.key {
                    Some(known_key) => known_key == key,
                    None => !by_chance,
                }
        };
        let known = self.known.iter().rev().find(same)?;
        if known.unit.symbol == unit.symbol {
            return Some(format!("={}", known.cell));
        }
        // Between thermometer scales with different noughts a factor does not do.
        let (nought, one) = (unit.from_si(known.unit.to_si(0.0)), unit.from_si(known.unit.to_si(1.0)));
        (nought.abs() < 1e-12).then(|| format!("={}*{one:?}", known.cell))
    }
}

/// The equation as a formula of the sheet, where worked out as printed it gives the figure.
fn live(record: &FormulaRecord, numbers: &BTreeMap<String, f64>, cells: &BTreeMap<String, String>, value: f64) -> Option<String> {
    let right: Expression = right_side(record)?;
    let as_printed = right.value(numbers)?;
    let near = (as_printed - value).abs() <= NEAR * value.abs().max(1e-9);
    if !near {
        return None;
    }
    right.in_workbook(&|sign| cells.get(sign).cloned())
}

/// A cell holds no infinity; what has no end stands as the largest number that it can hold.
fn finite(value: f64) -> f64 {
    if value.is_finite() { value } else { 9.99e307_f64.copysign(value) }
}
