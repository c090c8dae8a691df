//! Text to SI: `12 1/4 in`, `7,000 psi`, `150 degF`.
//!
//! A number may be written with a decimal point, an exponent, commas between groups of three, or as a
//! fraction (`3/8`, `13 3/8`, `13-3/8`, `13⅜`). A unit must follow for every kind that has one.

use crate::table::{UNCLEAR, named, spelling};
use crate::{Kind, Unit, UnitError, unit_named, units_of};

/// The SI value of a quantity as written.
///
/// ```
/// use rigwright_units::{Kind, parse};
/// assert_eq!(parse("12 1/4 in", Kind::Diameter), Ok(0.0254 * 12.25));
/// assert_eq!(parse("1.2 sg", Kind::Density), Ok(1200.0));
/// assert!(parse("10", Kind::Density).unwrap_err().help().contains("`10 ppg`"));
/// ```
pub fn parse(text: &str, kind: Kind) -> Result<f64, UnitError> {
    let (number, unit) = number_and_unit(text, kind)?;
    si(text, number.value, unit, kind)
}

/// What one step of the last printed digit of a quantity is worth in SI: 1 psi for `8424 psi`, 0.01 ppg
/// for `9.20 ppg`. Nought for a fraction, which has no last digit.
///
/// ```
/// use rigwright_units::{Kind, last_digit};
/// assert_eq!(last_digit("1.20 sg", Kind::Density), Ok(10.0));
/// ```
pub fn last_digit(text: &str, kind: Kind) -> Result<f64, UnitError> {
    let (number, unit) = number_and_unit(text, kind)?;
    Ok(unit.difference_to_si(number.last_digit()))
}

/// A quantity as written: its number, and the unit that it names.
///
/// ```
/// use rigwright_units::{Kind, as_written};
/// let (number, unit) = as_written("12 1/4 in", Kind::Diameter).unwrap();
/// assert_eq!((number, unit.symbol), (12.25, "in"));
/// ```
pub fn as_written(text: &str, kind: Kind) -> Result<(f64, &'static Unit), UnitError> {
    number_and_unit(text, kind).map(|(number, unit)| (number.value, unit))
}

/// The unit of a kind that a text names.
pub fn find_unit(text: &str, kind: Kind) -> Result<&'static Unit, UnitError> {
    let text = text.trim();
    if let Some(unit) = unit_named(text, kind) {
        return Ok(unit);
    }
    if text.is_empty() {
        return Err(UnitError::Empty { kind });
    }
    let unit = text.to_owned();
    let says = |spellings: &[&str]| spellings.iter().any(|other| spelling(other).eq(spelling(text)));
    if let Some((_, _, help)) = UNCLEAR.iter().find(|(spellings, kinds, _)| kinds.contains(&kind) && says(spellings)) {
        return Err(UnitError::UnclearUnit { unit, help, kind });
    }
    match named(text).first() {
        Some(other) => Err(UnitError::WrongKind { unit, is: other.kinds, wanted: kind }),
        None => Err(UnitError::UnknownUnit { unit, nearest: nearest(text, kind), kind }),
    }
}

/// The unit of a kind with which a text ends, the longest if several would do.
///
/// ```
/// use rigwright_units::{Kind, unit_at_end};
/// assert_eq!(unit_at_end("8.8..9.6 ppg", Kind::Density).map(|unit| unit.symbol), Some("ppg"));
/// ```
pub fn unit_at_end(text: &str, kind: Kind) -> Option<&'static Unit> {
    text.char_indices().find_map(|(at, _)| unit_named(&text[at..], kind)).or_else(|| unit_named("", kind))
}

/// A number in a unit as a finite SI value.
pub(crate) fn si(text: &str, number: f64, unit: &Unit, kind: Kind) -> Result<f64, UnitError> {
    let value = unit.to_si(number);
    if !value.is_finite() {
        Err(UnitError::TooLarge { text: text.trim().to_owned(), kind })
    } else if kind == Kind::Temperature && value < 0.0 {
        Err(UnitError::BelowAbsoluteZero { text: text.trim().to_owned() })
    } else {
        Ok(value)
    }
}

/// A number as written.
#[derive(Clone, Copy)]
pub(crate) struct Number {
    pub(crate) value: f64,
    /// Power of ten of its last digit; none for a fraction.
    last_digit: Option<i64>,
}

impl Number {
    /// One step of its last digit; nought for a fraction.
    fn last_digit(&self) -> f64 {
        // Read like any number, so that it is the nearest that there is.
        self.last_digit.and_then(|power| format!("1e{power}").parse().ok()).unwrap_or(0.0)
    }
}

/// A quantity in its parts.
fn number_and_unit(text: &str, kind: Kind) -> Result<(Number, &'static Unit), UnitError> {
    let (number, unit) = number(text, kind)?;
    Ok((number, unit_after(text, unit, kind)?))
}

/// The unit that follows a number in a text.
pub(crate) fn unit_after(text: &str, unit: &str, kind: Kind) -> Result<&'static Unit, UnitError> {
    find_unit(unit, kind).map_err(|error| match error {
        UnitError::Empty { .. } => UnitError::NoUnit { text: text.trim().to_owned(), kind },
        // More of a number follows the number: two commas, a decimal comma, a second figure.
        UnitError::UnknownUnit { .. } if unit.starts_with(|c: char| c.is_ascii_digit() || "+-−±.,/".contains(c)) => {
            UnitError::NotANumber { text: text.trim().to_owned(), kind }
        }
        other => other,
    })
}

/// The number that a text begins with, and what follows it.
pub(crate) fn number(text: &str, kind: Kind) -> Result<(Number, &str), UnitError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(UnitError::Empty { kind });
    }
    let negative = text.strip_prefix(['-', '−']);
    let unsigned = negative.or_else(|| text.strip_prefix('+')).unwrap_or(text);
    let sign = if negative.is_some() { -1.0 } else { 1.0 };
    let Some((size, rest)) = fraction(unsigned).or_else(|| decimal(unsigned)) else {
        return Err(UnitError::NotANumber { text: text.to_owned(), kind });
    };
    if !size.value.is_finite() {
        return Err(UnitError::TooLarge { text: text.to_owned(), kind });
    }
    Ok((Number { value: sign * size.value, ..size }, rest.trim()))
}

/// `12.25`, `1e5`, `7,000`.
fn decimal(text: &str) -> Option<(Number, &str)> {
    let whole = &text[..count(text, |byte| byte.is_ascii_digit() || byte == b',')];
    let grouped = whole.bytes().any(|byte| byte == b',');
    if grouped {
        let mut groups = whole.split(',');
        let first = groups.next()?;
        if !(1..=3).contains(&first.len()) || first.starts_with('0') || groups.any(|group| group.len() != 3) {
            return None;
        }
    }
    let point = text[whole.len()..].strip_prefix('.');
    let decimals = point.map_or(0, digits);
    if whole.is_empty() && decimals == 0 {
        return None;
    }
    let mut end = whole.len() + point.map_or(0, |_| 1 + decimals);
    let mut last_digit = i64::try_from(decimals).ok().map(|decimals| -decimals);
    if let Some(exponent) = text[end..].strip_prefix(['e', 'E']) {
        let sign = usize::from(exponent.starts_with(['+', '-']));
        let length = digits(&exponent[sign..]);
        if length > 0 {
            let exponent = exponent[..sign + length].parse::<i64>().ok();
            last_digit = exponent.and_then(|exponent| last_digit.map(|power| power.saturating_add(exponent)));
            end += 1 + sign + length;
        }
    }
    let (written, rest) = text.split_at(end);
    let value = if grouped { written.replace(',', "").parse() } else { written.parse() };
    Some((Number { value: value.ok()?, last_digit }, rest))
}

/// `3/8`, `13 3/8`, `13-3/8`, `13⅜`.
fn fraction(text: &str) -> Option<(Number, &str)> {
    let exact = |value| Number { value, last_digit: None };
    let (whole, rest) = text.split_at(digits(text));
    let after = rest.strip_prefix([' ', '-']).unwrap_or(rest).trim_start();
    match proper(after) {
        Some((part, rest)) if !whole.is_empty() => (part < 1.0).then_some((exact(whole.parse::<f64>().ok()? + part), rest)),
        _ => proper(text).map(|(part, rest)| (exact(part), rest)),
    }
}

/// A fraction by itself: `3/8` or `⅜`.
fn proper(text: &str) -> Option<(f64, &str)> {
    const SIGNS: [(char, f64); 7] =
        [('¼', 0.25), ('½', 0.5), ('¾', 0.75), ('⅛', 0.125), ('⅜', 0.375), ('⅝', 0.625), ('⅞', 0.875)];
    let first = text.chars().next()?;
    if !first.is_ascii() {
        let (sign, value) = SIGNS.iter().find(|(sign, _)| *sign == first)?;
        return Some((*value, &text[sign.len_utf8()..]));
    }
    let (above, rest) = text.split_at(digits(text));
    let rest = rest.strip_prefix('/')?;
    let (below, rest) = rest.split_at(digits(rest));
    let (above, below): (f64, f64) = (above.parse().ok()?, below.parse().ok()?);
    (below > 0.0 && !rest.starts_with(['.', ',', '/'])).then_some((above / below, rest))
}

/// How many digits a text begins with.
fn digits(text: &str) -> usize {
    count(text, |byte| byte.is_ascii_digit())
}

/// How many ASCII signs of a sort a text begins with.
fn count(text: &str, sort: impl Fn(u8) -> bool) -> usize {
    text.bytes().take_while(|byte| sort(*byte)).count()
}

/// The unit of this kind whose spelling is closest, if any is close: case never counts, and at most a
/// third of the letters may differ.
fn nearest(text: &str, kind: Kind) -> Option<&'static str> {
    let wanted: String = spelling(text).collect::<String>().to_lowercase();
    let distance = |other: &str| strsim::osa_distance(&wanted, &spelling(other).collect::<String>().to_lowercase());
    units_of(kind)
        .flat_map(|unit| unit.spellings.iter().chain([&unit.symbol]).map(move |other| (distance(other), unit.symbol)))
        .min_by_key(|(distance, _)| *distance)
        .filter(|(distance, symbol)| !symbol.is_empty() && distance * 3 <= wanted.chars().count())
        .map(|(_, symbol)| symbol)
}
