//! Rig power: from what the consumers take, back through motors and drives, to generator sets, engines and fuel.

pub mod chain;
pub mod drives;
pub mod engine;
pub mod fuel;
pub mod loads;
pub mod sets;
pub mod site;

use crate::FormulaRecord;

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] =
    &[chain::RECORDS, sets::RECORDS, engine::RECORDS, fuel::RECORDS, loads::RECORDS, site::RECORDS];
