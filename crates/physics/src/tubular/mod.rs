//! Pipe by itself: dimensions and weight, strength of the body, collapse, tool joints, and the trade's sizes.
//!
//! Strengths are computed from dimensions and yield strength; no rating is stored. Drill pipe by API RP 7G,
//! casing by API Bulletin 5C3 (now TR 5C3).

mod casing;
mod collapse;
mod dimensions;
mod joint;
mod sizes;
mod strength;

use crate::FormulaRecord;

pub use casing::{
    AllowedBurst, AllowedCollapse, AllowedStress, AllowedTension, CollapseDifference, FixedPipeForce, HotYieldStrength,
};
pub use collapse::{
    CoefficientA, CoefficientB, CoefficientC, CoefficientF, CoefficientG, ElasticCollapse, EquivalentGrade, PipeBody,
    PlasticCollapse, PlasticTransitionLimit, Slenderness, TransitionCollapse, TransitionElasticLimit, YieldCollapse,
    YieldPlasticLimit,
};
pub use dimensions::{
    AdjustedWeight, CLASS_2_WALL, PREMIUM_WALL, PlainEndWeight, PolarMoment, STEEL_DENSITY, SecondMoment, SectionModulus,
    SteelArea, SteelDisplacement, WallThickness, WornDiameter,
};
pub use joint::{
    BalancedDiameter, BendingStrengthRatio, BoxArea, BoxRootDiameter, JOINT_FRICTION, JOINT_YIELD, JointTorsion, MAKE_UP_SHARE,
    MakeUpTorque, PinArea, PinRootDiameter, ShoulderRadius, ShoulderRule, Thread, ThreadRadius, ToolJoint,
    bending_strength_ratio, connections, thread,
};
pub use sizes::{
    CasingDrift, casing_inside_diameter, casing_weights, collar_sizes, drill_pipe_inside_diameter, drill_pipe_sizes, grades,
    heavy_weight_sizes, yield_strength,
};
pub use strength::{
    BurstStrength, HoopStress, ShearStress, TensionStrength, TensionUnderTorsion, TorsionStrength, TorsionUnderTension,
    TriaxialStress, Twist,
};

/// The formulas of this part.
pub const RECORDS: &[&[&FormulaRecord]] =
    &[dimensions::RECORDS, strength::RECORDS, collapse::RECORDS, casing::RECORDS, joint::RECORDS, sizes::RECORDS];
