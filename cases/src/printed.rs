//! A figure as it stands in print: how big, in which unit, and how far its last digit reaches.

use rigwright_units::{Kind, parse};

/// A printed figure, in its own unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Printed {
    /// The number in the printed unit.
    pub number: f64,
    /// Half of the last printed digit, in the printed unit.
    pub half_digit: f64,
    /// How many digits stand after the decimal point; `None` for a fraction or a power of ten.
    pub decimals: Option<usize>,
    /// The unit as printed; empty for a plain number.
    pub unit: String,
    /// The SI value of nought in the printed unit.
    zero: f64,
    /// The SI size of one printed unit.
    one: f64,
}

impl Printed {
    /// Reads a figure of a kind: "12,480 psi", "0.80", "1.2e-5 in", "13 3/8 in".
    pub fn read(text: &str, kind: Kind) -> Result<Printed, String> {
        let (number, half_digit, decimals, unit) = split(text.trim())?;
        let in_unit = |count: &str| {
            let amount = if unit.is_empty() { count.to_owned() } else { format!("{count} {unit}") };
            parse(&amount, kind).map_err(|error| format!("`{text}`: {error}"))
        };
        let zero = in_unit("0")?;
        let one = in_unit("1")? - zero;
        let whole = in_unit(&format!("{number}"))?;
        let scaled = zero + one * number;
        // A printed unit must be a plain scale, so that half a digit means the same everywhere on it.
        if (whole - scaled).abs() > 1e-9 * (whole.abs() + zero.abs()) {
            return Err(format!("`{text}`: {unit} is not a plain scale ({whole} is not {scaled})"));
        }
        Ok(Printed { number, half_digit, decimals, unit: unit.to_owned(), zero, one })
    }

    /// An SI value in the printed unit.
    pub fn in_unit(&self, value: f64) -> f64 {
        (value - self.zero) / self.one
    }

    /// A difference that is printed in another unit, in units of this one.
    pub fn difference(&self, other: &Printed) -> f64 {
        other.number * other.one / self.one
    }

    /// A number in the printed unit, with two digits more than were printed.
    pub fn show(&self, number: f64) -> String {
        let digits = match self.decimals {
            Some(decimals) => format!("{number:.*}", decimals + 2),
            None if number.abs() < 1e-2 => format!("{number:.4e}"),
            None => format!("{number:.4}"),
        };
        if self.unit.is_empty() { digits } else { format!("{digits} {}", self.unit) }
    }
}

/// Number, half of the last digit, digits after the point, unit.
fn split(text: &str) -> Result<(f64, f64, Option<usize>, &str), String> {
    let (sign, unsigned) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    let no_number = || format!("`{text}` does not begin with a number");
    let length = unsigned.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(unsigned.len());
    let (mantissa, mut rest) = unsigned.split_at(length);
    if mantissa.contains(',') && !groups_of_three(mantissa) {
        return Err(format!("`{text}`: a comma may only part thousands"));
    }
    let plain = mantissa.replace(',', "");
    let mut number: f64 = plain.parse().map_err(|_| no_number())?;
    let decimals = plain.split_once('.').map_or(0, |(_, after)| after.len());
    let mut half_digit = 0.5 * 10f64.powi(-(decimals as i32));
    let mut shown = Some(decimals);

    if let Some((exponent, after)) = exponent(rest) {
        (number, half_digit) = (number * 10f64.powi(exponent), half_digit * 10f64.powi(exponent));
        (shown, rest) = (None, after);
    } else if decimals == 0
        && let Some((fraction, denominator, after)) = fraction(&plain, rest)
    {
        (number, half_digit) = (fraction, 0.5 / denominator);
        (shown, rest) = (None, after);
    }
    Ok((sign * number, half_digit, shown, rest.trim()))
}

/// Whether commas part groups of three digits.
fn groups_of_three(mantissa: &str) -> bool {
    let whole = mantissa.split('.').next().unwrap_or_default();
    let mut groups = whole.split(',');
    groups.next().is_some_and(|first| (1..=3).contains(&first.len()))
        && groups.all(|group| group.len() == 3)
        && mantissa.matches(',').count() == whole.matches(',').count()
}

/// A power of ten right after the mantissa: "e-5".
fn exponent(rest: &str) -> Option<(i32, &str)> {
    let after = rest.strip_prefix(['e', 'E'])?;
    let length = after
        .char_indices()
        .find(|(at, c)| !(c.is_ascii_digit() || (*at == 0 && "+-".contains(*c))))
        .map_or(after.len(), |x| x.0);
    let (digits, after) = after.split_at(length);
    Some((digits.parse().ok()?, after))
}

/// A common fraction: "5/8", or " 3/8" after a whole number. Value, denominator and what follows.
fn fraction<'a>(whole: &str, rest: &'a str) -> Option<(f64, f64, &'a str)> {
    let (base, numerator, rest) = match rest.strip_prefix('/') {
        Some(rest) => (0.0, whole.to_owned(), rest),
        None => {
            let (numerator, rest) = rest.trim_start().split_once('/')?;
            (whole.parse().ok()?, numerator.to_owned(), rest)
        }
    };
    let length = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
    let (denominator, after) = rest.split_at(length);
    let numerator: u32 = numerator.parse().ok()?;
    let denominator: u32 = denominator.parse().ok()?;
    if denominator == 0 || !(after.is_empty() || after.starts_with(' ')) {
        return None;
    }
    Some((base + f64::from(numerator) / f64::from(denominator), f64::from(denominator), after))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn digits(text: &str) -> (f64, f64, String) {
        let (number, half_digit, _, unit) = split(text).unwrap();
        (number, half_digit, unit.to_owned())
    }

    #[test]
    fn law_half_digit_follows_the_print() {
        assert_eq!(digits("3636.4 psi"), (3636.4, 0.05, "psi".into()));
        assert_eq!(digits("12,480 psi"), (12480.0, 0.5, "psi".into()));
        assert_eq!(digits("-0.80"), (-0.8, 0.005, "".into()));
        assert_eq!(digits("1.2e-5 in"), (1.2 * 1e-5, 0.05 * 1e-5, "in".into()));
        assert_eq!(digits("13 3/8 in"), (13.375, 0.0625, "in".into()));
        assert_eq!(digits("5/8 in"), (0.625, 0.0625, "in".into()));
        assert_eq!(digits("3 1/s"), (3.0, 0.5, "1/s".into()));
        assert_eq!(digits("40 %"), (40.0, 0.5, "%".into()));
        assert_eq!(digits("5ft"), (5.0, 0.5, "ft".into()));
        assert_eq!(digits("1,234,567.25 lbf"), (1_234_567.25, 0.005, "lbf".into()));
    }

    #[test]
    fn rejects_what_is_no_figure() {
        assert!(split("psi").is_err());
        assert!(split("1,5 psi").is_err());
        assert!(split("1.2.3 psi").is_err());
        assert!(split("").is_err());
    }
}
