//! The circulating system: columns, rheology, losses, bit, pumps, cleaning, surge and swab, solids, density and heat.

pub mod column;
pub mod passage;

pub mod casson;
pub mod choose;
pub mod fit;
pub mod rheology;
pub mod viscometer;

pub mod annulus;
pub mod eccentric;
pub mod friction;
pub mod generalised;
pub mod laminar;
pub mod losses;
pub mod rules;
pub mod runs;
pub mod surface;

pub mod bit;
pub mod optimum;
pub mod pumps;

pub mod cleaning;
pub mod cleaning_flow;
pub mod slip;

pub mod surge;
pub mod trip;

pub mod balances;
pub mod filtration;
pub mod mixing;
pub mod moving_wall;

pub mod density;
pub mod temperature;

use crate::FormulaRecord;

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] = &[
    column::RECORDS,
    passage::RECORDS,
    rheology::RECORDS,
    casson::RECORDS,
    laminar::RECORDS,
    generalised::RECORDS,
    friction::RECORDS,
    annulus::RECORDS,
    eccentric::RECORDS,
    runs::RECORDS,
    surface::RECORDS,
    rules::RECORDS,
    bit::RECORDS,
    pumps::RECORDS,
    slip::RECORDS,
    cleaning::RECORDS,
    moving_wall::RECORDS,
    surge::RECORDS,
    mixing::RECORDS,
    balances::RECORDS,
    filtration::RECORDS,
    density::water::RECORDS,
    density::brine::RECORDS,
    density::oil::RECORDS,
    density::mud::RECORDS,
    temperature::geotherm::RECORDS,
    temperature::transfer::RECORDS,
    temperature::steady::RECORDS,
];

#[cfg(test)]
mod tests;
