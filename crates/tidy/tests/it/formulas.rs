//! Every formula is listed, named as the trade names it, sourced, and held to something printed.

use std::collections::{BTreeMap, BTreeSet};

use rigwright_cases::{CaseFile, check_all, data_folder, load};
use rigwright_physics::{Kind, Law, records};

use crate::{files, is_kebab, is_snake, read, report};

/// Formulas that no published figure checks, each with its reason. Keep this short.
const UNCHECKED: &[(&str, &str)] = &[];

/// How many figures from print the program is held to, at least.
const PUBLISHED: usize = 100;

/// What the sharpest check of a formula may allow, as a share of the figure.
const SHARP: f64 = 0.05;

fn cases() -> Vec<CaseFile> {
    load(&data_folder()).unwrap_or_else(|error| panic!("{error}"))
}

/// Slug of every `formula!` in the source, with its file. Samples in comments do not count.
fn declared() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for path in files("crates/physics/src", "rs") {
        let text = read(&path);
        let code = text.lines().map(str::trim).filter(|line| !line.starts_with("//"));
        for slug in code.filter_map(|line| line.strip_prefix("slug \"")?.strip_suffix("\";").map(ToOwned::to_owned)) {
            if let Some(other) = found.insert(slug.clone(), path.clone()) {
                panic!("{slug} is declared in {other} and in {path}");
            }
        }
    }
    found
}

#[test]
fn law_every_formula_is_listed_once() {
    let declared = declared();
    let mut listed: BTreeMap<&str, usize> = BTreeMap::new();
    for record in records() {
        *listed.entry(record.slug).or_default() += 1;
    }
    let forgotten = declared.iter().filter(|(slug, _)| !listed.contains_key(slug.as_str()));
    let forgotten = forgotten.map(|(slug, path)| format!("{path}: {slug} is in no RECORDS, or its file is in no list"));
    let twice = listed.iter().filter(|(_, count)| **count > 1).map(|(slug, _)| format!("{slug} is listed twice"));
    let strange = listed.keys().filter(|slug| !declared.contains_key(**slug)).map(|slug| format!("{slug} is declared elsewhere"));
    report("Every formula stands in one list", &forgotten.chain(twice).chain(strange).collect::<Vec<_>>());
    assert!(!declared.is_empty());
}

#[test]
fn law_formulas_are_well_named_and_sourced() {
    let mut breaches = Vec::new();
    for record in records() {
        let mut say = |what: String| breaches.push(format!("{}: {what}", record.slug));
        if !is_kebab(record.slug) {
            say("the slug is not kebab case".into());
        }
        if record.source.trim().is_empty() {
            say("no source".into());
        }
        if !record.title.trim().ends_with('.') {
            say(format!("the title is not a sentence: {}", record.title));
        }
        if matches!(record.law, Law::Empirical(units) if units.trim().is_empty()) {
            say("empirical, and no units named".into());
        }
        let mut keys = BTreeSet::new();
        for symbol in record.symbols {
            if !is_snake(symbol.key) {
                say(format!("`{}` is not snake case", symbol.key));
            }
            if !keys.insert(symbol.key) {
                say(format!("`{}` stands twice", symbol.key));
            }
            if symbol.meaning.trim().is_empty() {
                say(format!("`{}` has no meaning", symbol.key));
            }
            let (must, valid) = (symbol.must, symbol.valid);
            if must.low > must.high || valid.low > valid.high {
                say(format!("a range of `{}` is upside down", symbol.key));
            }
            if symbol.default.is_some_and(|default| !must.contains(default)) {
                say(format!("the default of `{}` is refused", symbol.key));
            }
        }
        for symbol in record.symbols.iter().chain([&record.result]) {
            if symbol.sign.trim().is_empty() || !record.equation.contains(symbol.sign.trim()) {
                say(format!("the sign {} of `{}` is not in the equation {}", symbol.sign, symbol.key, record.equation));
            }
        }
    }
    report("Formulas are well named and sourced", &breaches);
}

/// A reader who has met a key once knows what it is everywhere.
#[test]
fn law_one_key_is_one_kind() {
    let mut kinds: BTreeMap<&str, (Kind, &str)> = BTreeMap::new();
    let mut breaches = Vec::new();
    for record in records() {
        for symbol in record.symbols {
            let (kind, first) = *kinds.entry(symbol.key).or_insert((symbol.kind, record.slug));
            if kind != symbol.kind {
                breaches.push(format!("`{}` is {kind:?} in {first} and {:?} in {}", symbol.key, symbol.kind, record.slug));
            }
        }
    }
    report("One key is one kind of quantity in all formulas", &breaches);
}

#[test]
fn law_every_formula_is_held_to_something_outside() {
    let cases = cases();
    let checks = cases.iter().flat_map(|file| &file.cases).flat_map(|case| &case.checks);
    let checked: BTreeSet<&str> = checks.filter_map(|check| check.formula.as_deref()).collect();
    let excused = |slug: &str| UNCHECKED.iter().any(|(unchecked, _)| *unchecked == slug);
    let bare = records().filter(|record| !checked.contains(record.slug) && !excused(record.slug));
    let bare = bare.map(|record| format!("{} ({}) has no case", record.slug, record.module));
    let stale = UNCHECKED.iter().filter(|(slug, _)| checked.contains(slug) || !records().any(|record| record.slug == *slug));
    let stale = stale.map(|(slug, _)| format!("{slug} needs no excuse"));
    report("Every formula has at least one case", &bare.chain(stale).collect::<Vec<_>>());
}

/// A check that would let a formula be wrong by a twentieth holds nothing.
#[test]
fn law_every_formula_is_held_sharply() {
    let rows = check_all(&cases());
    let mut sharpest: BTreeMap<&str, f64> = BTreeMap::new();
    for row in &rows {
        let share = sharpest.entry(&row.formula).or_insert(f64::INFINITY);
        *share = share.min(row.share);
    }
    let loose = records().filter_map(|record| {
        let share = *sharpest.get(record.slug)?;
        (share > SHARP).then(|| format!("{}: the sharpest check allows {:.1} %", record.slug, 100.0 * share))
    });
    report("Every formula has a check that allows little", &loose.collect::<Vec<_>>());
}

#[test]
fn law_many_published_figures_are_checked() {
    let cases = cases();
    let published = cases.iter().flat_map(|file| &file.cases).filter(|case| case.kind.is_published());
    let figures: usize = published.map(|case| case.checks.len()).sum();
    assert!(figures >= PUBLISHED, "{figures} published figures are checked, fewer than {PUBLISHED}");
}
