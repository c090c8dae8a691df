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
