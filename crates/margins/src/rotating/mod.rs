//! The rotating system: torque against drive and joints, the pipe's strength, weight on bit.

mod body;
mod buckling;
mod collapse;
mod fatigue;
mod friction;
mod jar;
mod joints;
mod lock_up;
#[cfg(test)]
mod motion_tests;
pub mod motions;
mod speed;
mod strength;
mod tools;
mod torque;
mod triaxial;
mod weight;

pub(crate) use body::{is_pipe, worn_diameter};
pub(crate) use buckling::YOUNGS_MODULUS;
pub(crate) use joints::make_up;
pub(crate) use strength::pull_left;

use crate::{Question, Scope, System};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

/// Share of the yield strength of the pipe body that may be used in tension: between 0.85 and 0.90 by common practice.
pub const PULL_SHARE: f64 = 0.9;

/// The system.
pub static SYSTEM: System = System { name: "rotating", parts: &[QUESTIONS], not_yet: NOT_YET };

const SOFT_STRING: &str = "soft string with the push of its stiffness at changes of bend, wound pipe and the lift of moving mud; no cuttings, no keyseats";

static QUESTIONS: &[Question] = &[
    Question {
        slug: "rotating/drive-torque",
        asks: "Does the drive turn the string at the wanted speed?",
        title: "drive torque",
        kind: Kind::Torque,
        scope: Scope::Situation,
        knobs: &["rotary speed", "mud weight"],
        assumes: &[SOFT_STRING, "bit torque as given in the well file"],
        ask: torque::drive_torque::<Off>,
        show: torque::drive_torque::<Working>,
    },
    Question {
        slug: "rotating/joint-torque",
        asks: "Does the torque stay below the make-up torque of every joint that it passes?",
        title: "joint torque",
        kind: Kind::Torque,
        scope: Scope::Situation,
        knobs: &["rotary speed", "mud weight"],
        assumes: &[SOFT_STRING],
        ask: torque::joint_torque::<Off>,
        show: torque::joint_torque::<Working>,
    },
    Question {
        slug: "rotating/pipe-strength",
        asks: "Does the pipe bear tension and torsion together, everywhere along the string?",
        title: "pipe strength",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["mud weight", "pulling speed"],
        assumes: &[SOFT_STRING, "full bore of mud of one weight; bending and pressure are asked in rotating/triaxial"],
        ask: strength::pipe_strength::<Off>,
        show: strength::pipe_strength::<Working>,
    },
    Question {
        slug: "rotating/triaxial",
        asks: "Does the pipe bear tension, torsion, bending and pressure all together, everywhere along the string?",
        title: "pipe, all loads",
        kind: Kind::Stress,
        scope: Scope::Situation,
        knobs: &["mud weight", "rotary speed", "pulling speed"],
        assumes: &[
            SOFT_STRING,
            "pressure in the string over the one outside runs straight from surface to the bit",
            "between its joints pipe in tension bends as Lubinski reckons it, body off the wall",
            "collars are governed by their connections",
        ],
        ask: triaxial::triaxial::<Off>,
        show: triaxial::triaxial::<Working>,
    },
    Question {
        slug: "rotating/pipe-overpull",
        asks: "Is the wanted overpull left in the pipe while pulling out, or while it lands a liner?",
        title: "pipe overpull",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["mud weight"],
        assumes: &[SOFT_STRING],
        ask: strength::pipe_overpull::<Off>,
        show: strength::pipe_overpull::<Working>,
    },
    Question {
        slug: "rotating/pipe-collapse",
        asks: "Does the pipe bear the mud around it while it is run empty, or how much of it may be?",
        title: "empty pipe",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["mud weight"],
        assumes: &[
            "the tension is that of the full string, hung still: more than the empty one has",
            "the regime of collapse is chosen again for the strength that tension leaves (API 5C3)",
        ],
        ask: collapse::pipe_collapse::<Off>,
        show: collapse::pipe_collapse::<Working>,
    },
    Question {
        slug: "rotating/weight-on-bit",
        asks: "Do collars and heavy-weight pipe carry the weight on bit, so that no drill pipe is in compression?",
        title: "weight on bit",
        kind: Kind::Force,
        scope: Scope::Section,
        knobs: &["weight on bit"],
        assumes: &["no friction below the neutral point: on bottom the string turns"],
        ask: weight::weight_on_bit::<Off>,
        show: weight::weight_on_bit::<Working>,
    },
    Question {
        slug: "rotating/buckling",
        asks: "Does any pipe above the collars buckle while it drills, slides or is run in?",
        title: "buckling",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["weight on bit", "mud weight"],
        assumes: &[
            SOFT_STRING,
            "collars are made to stand in compression and are not judged",
            "the pipe body is as far from the wall as its own diameter allows: joints would only hold it straighter",
            "the drag that buckled pipe adds is shown and not fed back",
        ],
        ask: buckling::buckling::<Off>,
        show: buckling::buckling::<Working>,
    },
    Question {
        slug: "rotating/fatigue",
        asks: "Does the drill pipe turn in every bend of the hole without tiring?",
        title: "fatigue in bends",
        kind: Kind::Curvature,
        scope: Scope::Section,
        knobs: &["mud weight"],
        assumes: &[
            SOFT_STRING,
            "endurance limit of API RP 7G in air: no corrosion, no slip cuts, nothing of the pipe's past",
            "the survey tells every bend: what lies between stations is not known",
        ],
        ask: fatigue::fatigue::<Off>,
        show: fatigue::fatigue::<Working>,
    },
    Question {
        slug: "rotating/critical-speed",
        asks: "At which rotary speeds may the string swing?",
        title: "critical speeds",
        kind: Kind::RotarySpeed,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["rules of API RP 7G for pipe that hangs free: advice, good to about a seventh, never an alarm"],
        ask: speed::critical_speed::<Off>,
        show: speed::critical_speed::<Working>,
    },
    Question {
        slug: "rotating/collar-connections",
        asks: "Do box and pin of the collars bend alike, so that neither tires first?",
        title: "collar connections",
        kind: Kind::Ratio,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["threads as new; boreback and relief grooves are left out"],
        ask: joints::collar_connections::<Off>,
        show: joints::collar_connections::<Working>,
    },
    Question {
        slug: "rotating/jar",
        asks: "Does the pipe above the jar bear the pull that fires it?",
        title: "jar",
        kind: Kind::Force,
        scope: Scope::Section,
        knobs: &["mud weight"],
        assumes: &[SOFT_STRING, "stuck below the jar with the bit at the end of the section, pumps off"],
        ask: jar::jar::<Off>,
        show: jar::jar::<Working>,
    },
    Question {
        slug: "rotating/tool-flow",
        asks: "Do motor and tools bear the flow?",
        title: "flow through tools",
        kind: Kind::FlowRate,
        scope: Scope::Section,
        knobs: &["flow rate"],
        assumes: &[],
        ask: tools::flow_most::<Off>,
        show: tools::flow_most::<Working>,
    },
    Question {
        slug: "rotating/tool-least-flow",
        asks: "Do motor and tools get the flow that they need?",
        title: "flow for tools",
        kind: Kind::FlowRate,
        scope: Scope::Section,
        knobs: &["flow rate"],
        assumes: &[],
        ask: tools::flow_least::<Off>,
        show: tools::flow_least::<Working>,
    },
    Question {
        slug: "rotating/tool-temperature",
        asks: "Do motor and tools bear the temperature of the rock?",
        title: "temperature of tools",
        kind: Kind::Temperature,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["the tool gets as hot as the undisturbed rock at its lower end: circulating, it stays cooler"],
        ask: tools::temperature::<Off>,
        show: tools::temperature::<Working>,
    },
    Question {
        slug: "rotating/loads-by-motion",
        asks: "What do hook and drive feel in every motion: pulling, running, turning, reaming both ways, drilling, sliding?",
        title: "loads by motion",
        kind: Kind::Force,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[SOFT_STRING, "a band from half to one and a half times the friction given stands in the working"],
        ask: motions::by_motion::<Off>,
        show: motions::by_motion::<Working>,
    },
    Question {
        slug: "rotating/friction-fit",
        asks: "Is the friction of the well file what the hook loads read in the section say?",
        title: "friction of the readings",
        kind: Kind::Ratio,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[SOFT_STRING, "the string moved at the speed of the trip, pumps off, without turning"],
        ask: friction::friction_fit::<Off>,
        show: friction::friction_fit::<Working>,
    },
    Question {
        slug: "rotating/lock-up",
        asks: "Does the wanted weight still reach the bit through wound pipe while the string slides?",
        title: "lock-up, sliding",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["weight on bit", "mud weight"],
        assumes: &[SOFT_STRING, "the string slides wherever it has a motor, or does not turn"],
        ask: lock_up::lock_up::<Off>,
        show: lock_up::lock_up::<Working>,
    },
];

static NOT_YET: &[(&str, &str)] = &[("rotating/position-error", "How far may the hole lie from where its survey puts it?")];
