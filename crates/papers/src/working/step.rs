//! One formula of a working: its signs with the numbers put in, the result, the source and the range.

use crate::substitute::substitute;
use crate::text::{Align, Style, Text, WIDTH, cut, pad, width};
use rigwright_physics::{FormulaRecord, Kind, Law, Range};
use rigwright_units::{System, Unit, find_unit, show_exact, show_exact_in, unit};

/// One formula: equation, numbers, result, source and range.
pub(crate) fn step(text: &mut Text, record: &FormulaRecord, inputs: &[f64], value: f64, units: System) {
    text.plain(format!("  {}", record.slug));
    text.paragraph(4, Style::Plain, record.title);
    text.paragraph(6, Style::Plain, record.equation);
    numbers(text, record, inputs, value, units);
    text.paragraph(6, Style::Faint, &format!("source: {}", record.source));
    for range in ranges(record, inputs, units) {
        text.paragraph(6, Style::Faint, &range);
    }
    text.blank();
}

/// A formula that was told in full before: its numbers and result only.
pub(super) fn step_again(text: &mut Text, record: &FormulaRecord, inputs: &[f64], value: f64, units: System) {
    text.plain(format!("  {}", record.slug));
    numbers(text, record, inputs, value, units);
    if !record.outside_valid(inputs).is_empty() {
        for range in ranges(record, inputs, units) {
            text.paragraph(6, Style::Faint, &range);
        }
    }
    text.blank();
}

fn numbers(text: &mut Text, record: &FormulaRecord, inputs: &[f64], value: f64, units: System) {
    signs(text, record, inputs, units);
    for result in in_numbers(record, inputs, value, units) {
        text.paragraph(6, Style::Plain, &result);
    }
}

/// The equation with its numbers put in and what comes out.
pub(crate) fn in_numbers(record: &FormulaRecord, inputs: &[f64], value: f64, units: System) -> Vec<String> {
    let way = put_in(record, inputs).unwrap_or_else(|| record.result.sign.to_owned());
    results(record, &way, value, units)
}

/// A row for each sign: value in the reader's unit, in the equation's unit where that is another, meaning.
fn signs(text: &mut Text, record: &FormulaRecord, inputs: &[f64], units: System) {
    let mut rows: Vec<[String; 4]> = Vec::new();
    for (symbol, value) in record.symbols.iter().zip(inputs) {
        let read = show_exact(*value, symbol.kind, units);
        let wanted = show_exact_in(*value, equation_unit(record, symbol.kind));
        let wanted = if wanted == read { String::new() } else { wanted };
        rows.push([symbol.sign.to_owned(), read, wanted, symbol.meaning.trim().to_owned()]);
    }
    let wide = |column: usize| rows.iter().map(|row| width(&row[column])).max().unwrap_or(0);
    let widths = [wide(0), wide(1), wide(2)];
    for [sign, read, wanted, meaning] in &rows {
        let cells = [pad(sign, widths[0], Align::Left), pad(read, widths[1], Align::Left), pad(wanted, widths[2], Align::Left)];
        let figures = format!("      {}", cells.join("  "));
        let room = WIDTH.saturating_sub(width(&figures) + 2);
        text.plain(format!("{figures}  {}", cut(meaning, room)));
    }
}

/// The equation with its numbers put in, in the units that it wants.
pub(crate) fn put_in(record: &FormulaRecord, inputs: &[f64]) -> Option<String> {
    let signs: Vec<(&str, String)> = record
        .symbols
        .iter()
        .zip(inputs)
        .map(|(symbol, value)| (symbol.sign, number_in(*value, equation_unit(record, symbol.kind))))
        .collect();
    substitute(record.equation, &signs)
}

/// The result behind the numbers put in, or on a line of its own where the equation does not begin with its sign or
/// goes on with helpers.
fn results(record: &FormulaRecord, way: &str, value: f64, units: System) -> Vec<String> {
    let wanted = show_exact_in(value, equation_unit(record, record.result.kind));
    let read = show_exact(value, record.result.kind, units);
    let figure = if wanted == read { read } else { format!("{wanted} = {read}") };
    let sign = record.result.sign;
    let plain = way == sign || (way.split('=').next().is_some_and(|left| left.trim() == sign) && way.matches('=').count() == 1);
    if plain { vec![format!("{way} = {figure}")] } else { vec![way.to_owned(), format!("{sign} = {figure}")] }
}

/// A number without unit and without commas, to be typed.
pub(super) fn number_in(value: f64, unit: &Unit) -> String {
    let shown = show_exact_in(value, unit);
    shown.strip_suffix(unit.symbol).unwrap_or(&shown).trim().replace(',', "")
}

/// The unit in which an equation wants a kind: SI, or for an empirical one the unit among those its constants hide.
pub fn equation_unit(record: &FormulaRecord, kind: Kind) -> &'static Unit {
    // A dial has no unit to convert; its degree is not that of an angle.
    if kind == Kind::Dial {
        return unit(kind, System::Field);
    }
    let hidden = match record.law {
        Law::Homogeneous => "",
        Law::Empirical(units) => units,
    };
    let spelt = |name: &str| find_unit(name, kind).or_else(|_| find_unit(&format!("{name} abs"), kind)).ok();
    let named = hidden.split(',').flat_map(|part| part.split(" and ")).map(|name| name.trim().trim_end_matches(" absolute"));
    let named: Vec<&Unit> = named.filter(|name| !name.is_empty()).filter_map(spelt).collect();
    // Feet and inches both measure a diameter; a formula with both means the one in which the trade writes this kind.
    let usual = System::ALL.into_iter().map(|system| unit(kind, system)).find(|usual| named.contains(usual));
    usual.or_else(|| named.first().copied()).or_else(|| spelt(kind.si_unit())).unwrap_or_else(|| unit(kind, System::Metric))
}

/// What the source vouches for, and what lies outside it.
pub(crate) fn ranges(record: &FormulaRecord, inputs: &[f64], units: System) -> Vec<String> {
    let bounded: Vec<String> = record
        .symbols
        .iter()
        .filter(|symbol| symbol.valid != Range::ANY)
        .map(|symbol| format!("{} {}", symbol.sign, range_words(&symbol.valid, symbol.kind, units)))
        .collect();
    let mut lines = Vec::new();
    let outside = record.outside_valid(inputs);
    if !bounded.is_empty() {
        let word = if outside.is_empty() { "inside" } else { "OUTSIDE" };
        lines.push(format!("range: {}: {word}", bounded.join(", ")));
    }
    for symbol in outside {
        lines.push(format!("{} ({}) lies outside what the source vouches for", symbol.sign, symbol.meaning.trim()));
    }
    lines
}

/// "from 8 to 20 ppg", "above 0 ft", "at most 1".
pub(crate) fn range_words(range: &Range, kind: Kind, units: System) -> String {
    let show = |value: f64| show_exact(value, kind, units);
    match (range.low.is_finite(), range.high.is_finite()) {
        (true, true) => {
            let low = if range.low_included { "from" } else { "above" };
            let high = if range.high_included { "to" } else { "and below" };
            format!("{low} {} {high} {}", show(range.low), show(range.high))
        }
        (true, false) => format!("{} {}", if range.low_included { "at least" } else { "above" }, show(range.low)),
        (false, true) => format!("{} {}", if range.high_included { "at most" } else { "below" }, show(range.high)),
        (false, false) => "any".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigwright_physics::{record, records};

    fn printed(slug: &str, inputs: &[f64], units: System) -> String {
        let record = record(slug).expect("the formula exists");
        let mut text = Text::default();
        step(&mut text, record, inputs, (record.from_keys)(inputs), units);
        text.to_string()
    }

    /// 12/231 x 10 x 7000 = 3636.36 psi; with the trade's 0.052, 3640 psi (definitions of inch, gallon and pound).
    #[test]
    fn published_a_hydrostatic_column_can_be_followed() {
        let ppg = 0.453_592_37 / 0.003_785_411_784;
        let page = printed("hydrostatic-pressure", &[10.0 * ppg, 7000.0 * 0.3048, 9.806_65], System::Field);
        for wanted in
            ["p = ρ g h", "10 ppg", "1198.264 kg/m", "7000 ft", "2133.6 m", "p = 1198.264 · 9.80665 · 2133.6 =", "= 3636.364 psi"]
        {
            assert!(page.contains(wanted), "no `{wanted}` in\n{page}");
        }
    }

    #[test]
    fn a_number_outside_the_source_is_named() {
        let page = printed("hydrostatic-pressure", &[4000.0, 100.0, 9.806_65], System::Metric);
        assert!(page.contains("OUTSIDE") && page.contains("ρ (mud weight) lies outside"), "{page}");
    }

    /// What is typed into a calculator is what the formula got.
    #[test]
    fn law_every_formula_prints_in_every_system() {
        for record in records() {
            let inputs: Vec<f64> = record.symbols.iter().map(|symbol| inside(&symbol.must)).collect();
            for units in System::ALL {
                let mut text = Text::default();
                step(&mut text, record, &inputs, (record.from_keys)(&inputs), units);
                assert!(text.lines.len() > 4, "{}", record.slug);
            }
        }
    }

    fn inside(range: &Range) -> f64 {
        match (range.low.is_finite(), range.high.is_finite()) {
            (true, true) => f64::midpoint(range.low, range.high),
            (true, false) => range.low + 1.0,
            (false, true) => range.high - 1.0,
            (false, false) => 1.0,
        }
    }
}
