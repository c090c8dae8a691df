//! Exact sizes of the field units that hide in the constants of empirical formulas. [SI]
//!
//! From the definitions in NIST SP 811: inch 25.4 mm, US gallon 231 in³, pound 0.45359237 kg, standard gravity.

/// An inch. [m]
pub(super) const INCH: f64 = 0.0254;
/// A foot. [m]
pub(super) const FOOT: f64 = 0.3048;
/// A foot per minute. [m/s]
pub(super) const FOOT_PER_MINUTE: f64 = FOOT / 60.0;
/// A foot per hour. [m/s]
pub(super) const FOOT_PER_HOUR: f64 = FOOT / 3600.0;
/// A US gallon per minute. [m³/s]
pub(super) const GALLON_PER_MINUTE: f64 = 231.0 * INCH * INCH * INCH / 60.0;
/// A pound per US gallon. [kg/m³]
pub(super) const POUND_PER_GALLON: f64 = 0.453_592_37 / (231.0 * INCH * INCH * INCH);
/// A pound-force per square inch. [Pa]
pub(super) const PSI: f64 = 0.453_592_37 * 9.806_65 / (INCH * INCH);
/// A pound-force per hundred square feet. [Pa]
pub(super) const POUND_PER_100_FEET_SQUARED: f64 = 0.453_592_37 * 9.806_65 / (100.0 * FOOT * FOOT);
/// A centipoise. [Pa·s]
pub(super) const CENTIPOISE: f64 = 1e-3;

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
