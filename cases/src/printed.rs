//! A figure as it stands in print: how big, in which unit, and how far its last digit reaches.

use rigwright_units::{Kind, Unit, as_written, last_digit};

/// A printed figure, in its own unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Printed {
    /// The number in the printed unit.
    pub number: f64,
    /// Half of the last printed digit, in the printed unit; nought for a fraction, which is exact.
    pub half_digit: f64,
    /// The printed unit.
    pub unit: &'static Unit,
}

impl Printed {
    /// Reads a figure of a kind: "12,480 psi", "0.80", "1.2e-5 in", "13 3/8 in".
    pub fn read(text: &str, kind: Kind) -> Result<Printed, String> {
        let (number, unit) = as_written(text, kind).map_err(|error| error.to_string())?;
        let step = last_digit(text, kind).map_err(|error| error.to_string())?;
        Ok(Printed { number, half_digit: 0.5 * step / unit.factor, unit })
    }

    /// An SI value in the printed unit.
    pub fn in_unit(&self, value: f64) -> f64 {
        self.unit.from_si(value)
    }

    /// A difference that is printed in another unit, in units of this one.
    pub fn difference(&self, other: &Printed) -> f64 {
        other.unit.difference_to_si(other.number) / self.unit.factor
    }

    /// A number in the printed unit, with two digits more than were printed.
    pub fn show(&self, number: f64) -> String {
        let behind_the_point = if self.half_digit > 0.0 { -(2.0 * self.half_digit).log10().round() } else { 2.0 };
        let decimals = (behind_the_point + 2.0).max(0.0) as usize;
        let text = format!("{number:.decimals$}");
        // No minus before a nought: it would say on which side of it the last bit fell.
        let nought = text.strip_prefix('-').filter(|rest| rest.bytes().all(|digit| matches!(digit, b'0' | b'.')));
        format!("{} {}", nought.unwrap_or(&text), self.unit.symbol).trim_end().to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_a_nought_has_no_sign() {
        let printed = Printed::read("0.500", Kind::Ratio).unwrap();
        assert_eq!((&*printed.show(-1e-9), &*printed.show(1e-9), &*printed.show(-0.01)), ("0.00000", "0.00000", "-0.01000"));
    }

    #[test]
    fn law_half_digit_follows_the_print() {
        let half = |text: &str, kind| Printed::read(text, kind).unwrap().half_digit;
        let near = |a: f64, b: f64| assert!((a - b).abs() <= 1e-12 * b, "{a} is not {b}");
        near(half("3636.4 psi", Kind::Pressure), 0.05);
        near(half("12,480 psi", Kind::Pressure), 0.5);
        near(half("-0.80", Kind::Ratio), 0.005);
        near(half("1.2e-5 in", Kind::Roughness), 0.05e-5);
        near(half("40 %", Kind::Fraction), 0.5);
        near(half("68.0 degF", Kind::Temperature), 0.05);
        near(half("13 3/8 in", Kind::Diameter), 0.0);
    }

    #[test]
    fn law_figures_are_shown_with_two_digits_more() {
        let shown = |text: &str, kind, number| Printed::read(text, kind).unwrap().show(number);
        assert_eq!(shown("8424 psi", Kind::Pressure, 8424.004), "8424.00 psi");
        assert_eq!(shown("0.052 psi/ft", Kind::PressureGradient, 0.0519), "0.05190 psi/ft");
        assert_eq!(shown("1.2e-5 in", Kind::Roughness, 1.2e-5), "0.00001200 in");
        assert_eq!(shown("13 3/8 in", Kind::Diameter, 13.375), "13.3750 in");
        assert_eq!(shown("0.8", Kind::Ratio, 0.8), "0.800");
    }

    #[test]
    fn law_a_scale_with_an_offset_keeps_it() {
        let printed = Printed::read("50 degF", Kind::Temperature).unwrap();
        assert!((printed.in_unit(283.15) - 50.0).abs() < 1e-9);
        let other = Printed::read("10 degC", Kind::Temperature).unwrap();
        assert!((printed.difference(&other) - 18.0).abs() < 1e-9);
    }
}
