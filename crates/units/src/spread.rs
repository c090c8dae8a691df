//! How sure a stated value is: `9.2 +/- 0.3 ppg` and `8.8..9.6 ppg`.

use crate::parse::{Number, number, si, unit_after};
use crate::{Kind, Unit, UnitError, parse};

/// How a value may lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spread {
    /// As stated.
    Exact,
    /// Normal about the value. [SI]
    Normal {
        /// One standard deviation: half of what stands after `+/-`. [SI]
        standard_deviation: f64,
    },
    /// Anywhere between two ends, each as likely. [SI]
    Uniform {
        /// Lower end. [SI]
        low: f64,
        /// Upper end, above the lower. [SI]
        high: f64,
    },
}

/// A value with its spread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stated {
    /// The value; the middle of a range. [SI]
    pub value: f64,
    /// How it may lie.
    pub spread: Spread,
}

impl Stated {
    /// A value without spread.
    pub const fn exact(value: f64) -> Stated {
        Stated { value, spread: Spread::Exact }
    }
}

/// The SI value and spread of a quantity as written.
///
/// The unit may stand once, at the end, or at each number. No spread is left of `+/- 0` or of equal ends.
///
/// ```
/// use rigwright_units::{Kind, Spread, parse_stated};
/// let fracture = parse_stated("1.5..2.0 sg", Kind::Density).unwrap();
/// assert_eq!(fracture.value, 1750.0);
/// assert_eq!(fracture.spread, Spread::Uniform { low: 1500.0, high: 2000.0 });
/// ```
pub fn parse_stated(text: &str, kind: Kind) -> Result<Stated, UnitError> {
    // Nearly every quantity is one number: one sign of a spread is quicker looked for than the whole of it.
    let has = |sign: u8| text.bytes().any(|byte| byte == sign);
    if (has(b'+') || !text.is_ascii())
        && let Some((middle, deviations)) = text.split_once("+/-").or_else(|| text.split_once('±'))
    {
        return normal(text, middle, deviations, kind);
    }
    if has(b'.')
        && let Some((low, high)) = text.split_once("..")
    {
        return uniform(text, low, high, kind);
    }
    parse(text, kind).map(Stated::exact)
}

fn normal(text: &str, middle: &str, deviations: &str, kind: Kind) -> Result<Stated, UnitError> {
    let [(middle, unit), (deviations, deviations_unit)] = both(text, middle, deviations, kind)?;
    if deviations.value < 0.0 {
        return Err(UnitError::NegativeSpread { text: text.trim().to_owned(), kind });
    }
    let value = si(text, middle.value, unit, kind)?;
    let standard_deviation = deviations_unit.difference_to_si(deviations.value) / 2.0;
    if !standard_deviation.is_finite() {
        return Err(UnitError::TooLarge { text: text.trim().to_owned(), kind });
    }
    let spread = if standard_deviation > 0.0 { Spread::Normal { standard_deviation } } else { Spread::Exact };
    Ok(Stated { value, spread })
}

fn uniform(text: &str, low: &str, high: &str, kind: Kind) -> Result<Stated, UnitError> {
    let [(low, low_unit), (high, high_unit)] = both(text, low, high, kind)?;
    let (low, high) = (si(text, low.value, low_unit, kind)?, si(text, high.value, high_unit, kind)?);
    if low > high {
        return Err(UnitError::ReversedEnds { text: text.trim().to_owned(), kind });
    }
    let spread = if low < high { Spread::Uniform { low, high } } else { Spread::Exact };
    Ok(Stated { value: low.midpoint(high), spread })
}

/// Two numbers, of which one may lend its unit to the other.
fn both(text: &str, first: &str, second: &str, kind: Kind) -> Result<[(Number, &'static Unit); 2], UnitError> {
    let (first, first_unit) = number(first, kind)?;
    let (second, second_unit) = number(second, kind)?;
    let or = |own: &'_ str, other: &'_ str| unit_after(text, if own.is_empty() { other } else { own }, kind);
    Ok([(first, or(first_unit, second_unit)?), (second, or(second_unit, first_unit)?)])
}
