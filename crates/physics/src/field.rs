//! Exact sizes of the field units that hide in the constants of empirical formulas and in the trade's tables. [SI]
//!
//! From the definitions in NIST SP 811: inch 25.4 mm, pound 0.45359237 kg, standard gravity.

use crate::STANDARD_GRAVITY;

/// An inch. [m]
pub(crate) const INCH: f64 = 0.0254;
/// A foot. [m]
pub(crate) const FOOT: f64 = 0.3048;
/// A pound. [kg]
pub(crate) const POUND: f64 = 0.453_592_37;
/// A pound-force. [N]
pub(crate) const POUND_FORCE: f64 = POUND * STANDARD_GRAVITY;
/// A pound per foot of pipe. [kg/m]
pub(crate) const POUND_PER_FOOT: f64 = POUND / FOOT;
/// A pound-force per square inch. [Pa]
pub(crate) const PSI: f64 = POUND_FORCE / (INCH * INCH);
/// A US gallon. [m³]
pub(crate) const GALLON: f64 = 231.0 * INCH * INCH * INCH;
/// A barrel of 42 US gallons. [m³]
pub(crate) const BARREL: f64 = 42.0 * GALLON;
/// A pound per US gallon. [kg/m³]
pub(crate) const POUND_PER_GALLON: f64 = POUND / GALLON;
/// A degree Rankine. [K]
pub(crate) const RANKINE: f64 = 5.0 / 9.0;
/// A minute. [s]
pub(crate) const MINUTE: f64 = 60.0;
/// A day. [s]
pub(crate) const DAY: f64 = 86_400.0;
/// A foot per minute. [m/s]
pub(crate) const FOOT_PER_MINUTE: f64 = FOOT / MINUTE;
/// A foot per hour. [m/s]
pub(crate) const FOOT_PER_HOUR: f64 = FOOT / 3600.0;
/// A US gallon per minute. [m³/s]
pub(crate) const GALLON_PER_MINUTE: f64 = GALLON / MINUTE;
/// A pound-force per hundred square feet. [Pa]
pub(crate) const POUND_PER_100_FEET_SQUARED: f64 = POUND_FORCE / (100.0 * FOOT * FOOT);
/// A centipoise. [Pa·s]
pub(crate) const CENTIPOISE: f64 = 1e-3;

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST SP 811, appendix B: the factors printed there to seven digits.
    #[test]
    fn published_nist_sp_811_factors() {
        for (value, printed) in [
            (GALLON_PER_MINUTE, 6.309_020e-5),
            (POUND_PER_GALLON, 1.198_264e2),
            (PSI, 6.894_757e3),
            (100.0 * POUND_PER_100_FEET_SQUARED, 4.788_026e1),
        ] {
            assert!((value / printed - 1.0).abs() < 1e-6, "{value} {printed}");
        }
    }
}
