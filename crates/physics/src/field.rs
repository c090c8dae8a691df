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
