//! The rotating system: drive and bit, weight on bit, bending and fatigue, buckling.
//!
//! Torque along the string is marched together with drag, in `hoisting`; strength of pipe and joints is in `tubular`.

mod bending;
mod bit_weight;
mod buckling;
mod drive;

use crate::FormulaRecord;

pub use bending::{
    BendingNumber, BendingStress, JointSideForce, LongitudinalSpeed, PermissibleDogleg, PermissibleStressE, PermissibleStressS,
    SwingSpeed,
};
pub use bit_weight::{CollarLength, HeavyWeightLength, NeutralPoint, WeightAvailable};
pub use buckling::{CurvedBuckling, HelicalBuckling, HelicalBucklingFull, SinusoidalBuckling, VerticalBuckling};
pub use drive::{BitTorque, CorrectedDExponent, DExponent, DriveTorque, RotaryPower, SpecificEnergy};

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] = &[drive::RECORDS, bit_weight::RECORDS, bending::RECORDS, buckling::RECORDS];
