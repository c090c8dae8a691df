//! The rotating system: drive and bit, weight on bit, bending and fatigue, buckling.
//!
//! Torque along the string is marched together with drag, in `hoisting`; strength of pipe and joints is in `tubular`.

mod bending;
mod bit_weight;
mod buckled;
mod buckling;
mod drive;
mod fatigue;
mod triaxial;
mod vibration;

use crate::FormulaRecord;

pub use bending::{
    BendingNumber, BendingStress, JointSideForce, LongitudinalSpeed, PermissibleDogleg, PermissibleStressE, PermissibleStressS,
    SwingSpeed, permissible_bending_stress,
};
pub use bit_weight::{CollarLength, HeavyWeightLength, NeutralPoint, WeightAvailable};
pub use buckled::{
    Arrival, BucklingBand, BucklingUnderSideForce, CompressedPipe, CurvedHelicalBuckling, HELIX_FULL, HELIX_ONSET,
    HelicalSideForce, HelixBendingStress, HelixDrag, HelixPitch, LOCK_UP_TRANSFER, LargestWeightThroughHelix, PushedPipe,
    SNAKING, VERTICAL_HELIX, VERTICAL_SECOND_ORDER, VERTICAL_SNAKING, VerticalBucklingOfOrder, WeightThroughHelix,
    WeightTransfer, arrival, buckling_band,
};
pub use buckling::{CurvedBuckling, HelicalBuckling, HelicalBucklingFull, SinusoidalBuckling, VerticalBuckling};
pub use drive::{BitTorque, CorrectedDExponent, DExponent, DriveTorque, RotaryPower, SpecificEnergy};
pub use fatigue::{
    BodyContactDogleg, CurvatureAtJoint, DamageOfPassage, JointedPipe, Passage, RevolutionsInBend, RevolutionsToFailure,
    STIFFNESS_RATIO_HARD, STIFFNESS_RATIO_SOFT, StiffnessRatio, damage, stress_in_bend,
};
pub use triaxial::{
    AxialStress, CollapseOnEllipse, HoopStressAtRadius, PipeLoad, RadialStress, TRIAXIAL_DESIGN_FACTOR, TriaxialDesignFactor,
    WorstStress,
};
pub use vibration::{AddedMass, CRITICAL_SPREAD, LateralSpeed, MovingMass, TwistPeriod};

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] = &[
    drive::RECORDS,
    bit_weight::RECORDS,
    bending::RECORDS,
    buckling::RECORDS,
    buckled::RECORDS,
    fatigue::RECORDS,
    triaxial::RECORDS,
    vibration::RECORDS,
];
