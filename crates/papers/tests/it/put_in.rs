//! What a working prints can be followed: the equation with its numbers put in, worked out by a pocket calculator,
//! gives the printed result. This holds the equation, the code behind it and the units of its numbers to each other.

use rigwright_papers::equation::{Expression, clauses};
use rigwright_papers::json;
use rigwright_physics::{FormulaRecord, Range, records};
use rigwright_units::System;
use serde_json::Value;
use std::collections::BTreeMap;

/// Numbers are printed with seven digits, and differences of near numbers lose some.
const TOLERANCE: f64 = 1e-3;

/// Formulas whose samples miss the branch that is printed, with the reason.
const EXEMPT: &[(&str, &str)] = &[("weight-through-helix", "nought beyond the length that locks; every sample lies there")];

/// Values inside the range that the source vouches for, spread over it; the same at each run.
fn sample(record: &FormulaRecord, round: usize) -> Vec<f64> {
    let one = |(index, symbol): (usize, &rigwright_physics::Symbol)| {
        let spread = 0.2 + 0.6 * ((index * 7 + round * 3 + index * round) % 11) as f64 / 10.0;
        let narrow = if symbol.valid == Range::ANY { symbol.must } else { symbol.valid };
        match (narrow.low.is_finite(), narrow.high.is_finite()) {
            (true, true) => narrow.low + (narrow.high - narrow.low) * spread,
            (true, false) => narrow.low + 10.0 * spread * narrow.low.abs().max(1.0),
            (false, true) => narrow.high - 10.0 * spread * narrow.high.abs().max(1.0),
            (false, false) => 10.0 * spread,
        }
    };
    record.symbols.iter().enumerate().map(one).collect()
}

/// How far the printed equation is from its result, as a share of the larger side; `None` where it is told in words.
fn miss(record: &'static FormulaRecord, inputs: &[f64]) -> Option<f64> {
    let printed = json::worked(record, inputs, (record.from_keys)(inputs), System::Field);
    let printed: Value = serde_json::from_str(&printed).expect("a document is JSON");
    let step = &printed["step"];
    let (put_in, result) = (step["put_in"].as_str()?, step["result"]["equation_value"].as_f64()?);
    let mut clauses = clauses(put_in).into_iter();
    let (left, right) = clauses.next()?.split_once('=').map(|(left, right)| (left.trim().to_owned(), right.to_owned()))?;
    let mut names = BTreeMap::from([(record.result.sign.to_owned(), result)]);
    // Helpers may rest on those behind them.
    let helpers: Vec<(String, String)> = clauses
        .filter_map(|clause| clause.split_once('=').map(|(name, text)| (name.trim().to_owned(), text.to_owned())))
        .collect();
    for _ in 0..helpers.len() {
        for (name, text) in &helpers {
            if let Some(value) = value(text, &names) {
                names.insert(name.clone(), value);
            }
        }
    }
    let left = if left == record.result.sign { result } else { value(&left, &names)? };
    let right = value(&right, &names)?;
    let size = left.abs().max(right.abs());
    Some(if size < 1e-9 { 0.0 } else { (left - right).abs() / size }).filter(|miss| miss.is_finite())
}

/// What a pocket calculator makes of it.
fn value(text: &str, names: &BTreeMap<String, f64>) -> Option<f64> {
    Expression::read(text)?.value(names)
}

#[test]
fn law_what_is_put_in_gives_the_result() {
    let (mut followed, mut breaches) = (0, Vec::new());
    let mut told_in_words = Vec::new();
    for record in records().filter(|record| EXEMPT.iter().all(|(slug, _)| *slug != record.slug)) {
        let misses: Vec<f64> = (0..5).filter_map(|round| miss(record, &sample(record, round))).collect();
        // A piecewise formula prints one branch; a sample in it must agree.
        match misses.iter().copied().min_by(f64::total_cmp) {
            None => told_in_words.push(record.slug),
            Some(best) if best > TOLERANCE => breaches.push(format!("{}: off by {misses:.4?}: {}", record.slug, record.equation)),
            Some(_) => followed += 1,
        }
    }
    assert!(breaches.is_empty(), "{followed} followed, told in words: {told_in_words:?}\n{breaches:#?}");
    let share = followed as f64 / records().count() as f64;
    assert!(share > 0.8, "only {followed} can be followed; not: {told_in_words:?}");
}
