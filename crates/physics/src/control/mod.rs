//! Pressure control: real gas, kicks and how to kill them, limits, preventer control fluid, separator.

pub mod criticals;
pub mod gas;
pub mod gas_column;
pub mod gas_table;
pub mod nitrogen;

pub mod annulus;
pub mod bubble;
pub mod bubble_forms;
pub mod choke;
pub mod circulate;
pub mod influx;
pub mod kick;
pub mod kill;
pub mod leak_off;
pub mod limits;
pub mod managed;
pub mod non_circulating;
pub mod rounding;
pub mod subsea;
pub mod tolerance;
pub mod trips;

pub mod accumulator;
pub mod cement;
pub mod diverter;
pub mod separator;

use crate::FormulaRecord;

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] = &[
    gas::RECORDS,
    gas_table::RECORDS,
    criticals::RECORDS,
    nitrogen::RECORDS,
    influx::RECORDS,
    kick::RECORDS,
    leak_off::RECORDS,
    limits::RECORDS,
    kill::RECORDS,
    managed::RECORDS,
    bubble_forms::RECORDS,
    subsea::RECORDS,
    non_circulating::RECORDS,
    trips::RECORDS,
    accumulator::RECORDS,
    separator::RECORDS,
    diverter::RECORDS,
    cement::RECORDS,
    choke::RECORDS,
];
