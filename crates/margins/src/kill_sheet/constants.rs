//! Exact constants, or those that the trade prints on its sheets.

use rigwright_physics::STANDARD_GRAVITY;

/// The constants of a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Constants {
    /// What they are called.
    pub name: &'static str,
    /// Acceleration of free fall in hydrostatic pressures. [m/s²]
    pub gravity: f64,
    /// Capacities are this much of the exact ones. [-]
    pub capacity: f64,
    /// Pump outputs are this much of the exact ones. [-]
    pub output: f64,
}

impl Constants {
    /// 12/231 psi/ft for each ppg and what follows from the definitions of the units.
    pub const EXACT: Constants = Constants { name: "exact", gravity: STANDARD_GRAVITY, capacity: 1.0, output: 1.0 };

    /// 0.052 psi/ft for each ppg, d²/1029.4 bbl/ft, 0.000243 L D² bbl/stroke: common practice.
    pub const TRADE: Constants = Constants {
        name: "the trade's rounded ones",
        gravity: STANDARD_GRAVITY * 0.052 * 231.0 / 12.0,
        capacity: EXACT_CAPACITY_DIVISOR / 1029.4,
        output: 0.000_243 / EXACT_TRIPLEX,
    };
}

/// A barrel of 9702 in³ over π/4 · 12 in: the exact divisor of squared inches for barrels a foot.
const EXACT_CAPACITY_DIVISOR: f64 = 9702.0 * 4.0 / (12.0 * std::f64::consts::PI);
/// Three cylinders of an inch by an inch, in barrels.
const EXACT_TRIPLEX: f64 = 3.0 * std::f64::consts::FRAC_PI_4 / 9702.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// The exact values beside the trade's: 0.0519480519, 1029.4142, 0.00024285657, from the definitions of inch and gallon.
    #[test]
    fn published_exact_values_of_the_trades_constants() {
        assert!((EXACT_CAPACITY_DIVISOR - 1029.4142).abs() < 5e-5);
        assert!((EXACT_TRIPLEX - 0.000_242_856_57).abs() < 5e-12);
        assert!((Constants::TRADE.gravity / STANDARD_GRAVITY * 0.051_948_051_9 - 0.052).abs() < 5e-11);
    }
}
