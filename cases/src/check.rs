//! Computes what a check prints and compares.

use rigwright_physics::{FormulaRecord, Kind, record};
use rigwright_units::show_exact_in;

use crate::procedures::procedure;
use crate::{Case, CaseFile, Check, Given, Printed, SourceKind};

/// How a check came out.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// The computed figure lies within the tolerance of the printed one.
    Met,
    /// The print is known to be wrong; it is not met and the right figure is.
    WrongPrint,
    /// It does not come out as printed, or could not be computed at all: why.
    Failed(String),
}

/// One check with its result: a row of the validation report.
#[derive(Clone, Debug)]
pub struct Row {
    /// Name of the data file.
    pub file: String,
    /// Id of the case.
    pub case: String,
    /// What is worked out.
    pub what: String,
    /// Where it is printed.
    pub source: String,
    /// How far the source is to be trusted.
    pub kind: SourceKind,
    /// Part of `physics`: `circulating`, `hoisting`, ...; empty when the formula is unknown.
    pub system: String,
    /// Slug of the formula, or name and output of the procedure.
    pub formula: String,
    /// The figure as printed.
    pub printed: String,
    /// The right figure of a wrong print.
    pub right: Option<String>,
    /// The computed figure in the printed unit.
    pub computed: String,
    /// Computed less printed (for a wrong print: less the right one), in the printed unit.
    pub error: String,
    /// What the error may be, in the printed unit.
    pub tolerance: String,
    /// The tolerance as a share of the figure: how sharp the check is.
    pub share: f64,
    /// Why the tolerance is not half of the last printed digit.
    pub reason: Option<String>,
    /// Inputs outside the range that the source of the formula vouches for.
    pub remarks: Vec<String>,
    /// How it came out.
    pub verdict: Verdict,
}

impl Row {
    /// Whether the check holds.
    pub fn holds(&self) -> bool {
        !matches!(self.verdict, Verdict::Failed(_))
    }

    /// The failure in one line.
    pub fn failure(&self) -> Option<String> {
        let Verdict::Failed(why) = &self.verdict else { return None };
        Some(format!("{}.toml, {}, {} = {}: {why}", self.file, self.case, self.formula, self.printed))
    }
}

/// What a check computes.
struct Computed {
    kind: Kind,
    value: f64,
    remarks: Vec<String>,
}

/// Runs every check of every file.
pub fn check_all(files: &[CaseFile]) -> Vec<Row> {
    let cases = files.iter().flat_map(|file| file.cases.iter().map(move |case| (file, case)));
    cases.flat_map(|(file, case)| case.checks.iter().map(move |one| check(&file.name, case, one))).collect()
}

/// Runs one check.
pub fn check(file: &str, case: &Case, check: &Check) -> Row {
    let mut row = Row {
        file: file.to_owned(),
        case: case.id.clone(),
        what: case.what.clone(),
        source: case.source.clone(),
        kind: case.kind,
        system: system(check),
        formula: label(check),
        printed: check.printed.clone(),
        right: check.right.clone(),
        computed: String::new(),
        error: String::new(),
        tolerance: String::new(),
        share: f64::INFINITY,
        reason: check.reason.clone(),
        remarks: Vec::new(),
        verdict: Verdict::Met,
    };
    if let Err(why) = compare(check, &mut row) {
        row.verdict = Verdict::Failed(why);
    }
    row
}

/// Computes, compares and fills in the row; the error says why the check fails.
fn compare(check: &Check, row: &mut Row) -> Result<(), String> {
    let computed = compute(check)?;
    row.remarks = computed.remarks;
    if check.wrong != check.right.is_some() {
        return Err("`wrong = true` and `right` go together".into());
    }
    if check.tolerance.is_some() != check.reason.is_some() {
        return Err("`tolerance` and `reason` go together".into());
    }
    let printed = Printed::read(&check.printed, computed.kind)?;
    let aim = match &check.right {
        Some(right) => Printed::read(right, computed.kind)?,
        None => printed.clone(),
    };
    let stated = check.tolerance.as_ref().map(|text| Printed::read(text, computed.kind)).transpose()?;
    let reach = |figure: &Printed| stated.as_ref().map_or(figure.half_digit, |stated| figure.difference(stated));
    let tolerance = reach(&aim);
    if !(tolerance.is_finite() && tolerance >= 0.0) {
        return Err(format!("the tolerance is {tolerance}"));
    }
    let number = aim.in_unit(computed.value);
    let error = number - aim.number;
    row.computed = aim.show(number);
    row.error = aim.show(error);
    row.share = tolerance / aim.number.abs();
    row.tolerance = show_exact_in(aim.unit.to_si(tolerance), aim.unit);
    if !within(number, aim.number, tolerance) {
        return Err(format!("computed {} is off by {}, allowed {}", row.computed, row.error, row.tolerance));
    }
    if check.wrong {
        if within(printed.in_unit(computed.value), printed.number, reach(&printed)) {
            return Err(format!("computed {} meets the print that is marked as wrong", row.computed));
        }
        row.verdict = Verdict::WrongPrint;
    }
    Ok(())
}

/// Whether a number lies within the tolerance, give or take the rounding of floating-point numbers.
fn within(number: f64, aim: f64, tolerance: f64) -> bool {
    (number - aim).abs() <= tolerance + 1e-9 * aim.abs()
}

fn compute(check: &Check) -> Result<Computed, String> {
    match (&check.formula, &check.procedure, &check.output) {
        (Some(slug), None, None) => {
            let found = record(slug).ok_or_else(|| format!("there is no formula `{slug}`"))?;
            compute_formula(found, &Given::new(&check.given))
        }
        (None, Some(name), Some(output)) => compute_procedure(name, output, &Given::new(&check.given)),
        _ => Err("a check needs either `formula`, or `procedure` with `output`".into()),
    }
}

fn compute_formula(record: &FormulaRecord, given: &Given) -> Result<Computed, String> {
    let mut inputs = Vec::new();
    for symbol in record.symbols {
        let input = match symbol.default {
            Some(default) => given.quantity_or(symbol.key, symbol.kind, default),
            None => given.quantity(symbol.key, symbol.kind),
        };
        inputs.push(input?);
    }
    all_read(given)?;
    let names = |symbols: Vec<&rigwright_physics::Symbol>| symbols.iter().map(|symbol| symbol.key).collect::<Vec<_>>().join(", ");
    let refused = names(record.outside_must(&inputs));
    if !refused.is_empty() {
        return Err(format!("refused: {refused} outside the range that the formula must have"));
    }
    let doubtful = names(record.outside_valid(&inputs));
    let remarks = if doubtful.is_empty() { vec![] } else { vec![format!("{doubtful} outside the valid range")] };
    finite((record.from_keys)(&inputs)).map(|value| Computed { kind: record.result.kind, value, remarks })
}

fn compute_procedure(name: &str, output: &str, given: &Given) -> Result<Computed, String> {
    let procedure = procedure(name).ok_or_else(|| format!("there is no procedure `{name}`"))?;
    let outputs = (procedure.run)(given)?;
    all_read(given)?;
    let found = outputs.iter().find(|one| one.name == output).ok_or_else(|| {
        let names: Vec<_> = outputs.iter().map(|one| one.name).collect();
        format!("`{name}` has no output `{output}`, it has {}", names.join(", "))
    })?;
    finite(found.value).map(|value| Computed { kind: found.kind, value, remarks: vec![] })
}

fn all_read(given: &Given) -> Result<(), String> {
    let unread = given.unread();
    if unread.is_empty() { Ok(()) } else { Err(format!("given but not used: {}", unread.join(", "))) }
}

fn finite(value: f64) -> Result<f64, String> {
    if value.is_finite() { Ok(value) } else { Err(format!("the result is {value}")) }
}

fn label(check: &Check) -> String {
    match (&check.formula, &check.procedure) {
        (Some(slug), _) => slug.clone(),
        (None, Some(name)) => format!("{name}: {}", check.output.as_deref().unwrap_or("?")),
        (None, None) => String::new(),
    }
}

/// The part of `physics` a check belongs to.
fn system(check: &Check) -> String {
    let formula = check.formula.as_deref().and_then(record).map(FormulaRecord::system);
    let procedure = check.procedure.as_deref().and_then(procedure).map(|procedure| procedure.system);
    formula.or(procedure).unwrap_or_default().to_owned()
}
