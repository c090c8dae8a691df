//! Pressure control: real gas, kicks and how to kill them, limits, preventer control fluid, separator.

pub mod criticals;
pub mod gas;
pub mod gas_column;
pub mod gas_table;
pub mod nitrogen;

use crate::FormulaRecord;

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] = &[gas::RECORDS, gas_table::RECORDS, criticals::RECORDS, nitrogen::RECORDS];
