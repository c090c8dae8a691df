//! Pressure control: what pressure may be met at surface and what bears it, kicks, killing, preventer control fluid.

mod accumulator;
mod anticipated;
mod kill;

use crate::{Answer, Question, Scope, System};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

/// The system.
pub static SYSTEM: System = System { name: "control", questions: QUESTIONS, not_yet: NOT_YET };

/// Before the first casing there is nothing to shut the well in on.
const DIVERTED: Answer = Answer::DoesNotArise("no casing to shut the well in on: shallow flow is diverted");

const ANTICIPATED: &str =
    "anticipated surface pressure: the whole hole full of gas, or gas below a shoe that breaks, whichever is less";
const ONE_MUD: &str = "one kill mud weight all round, still; friction helps and is left out";

static QUESTIONS: &[Question] = &[
    Question {
        slug: "control/stack-rating",
        asks: "Do all preventers bear the pressure that may be met at surface while this section is drilled?",
        title: "preventer ratings",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[ANTICIPATED],
        ask: anticipated::stack_rating::<Off>,
        show: anticipated::stack_rating::<Working>,
    },
    Question {
        slug: "control/wellhead-rating",
        asks: "Does the wellhead bear it?",
        title: "wellhead rating",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[ANTICIPATED],
        ask: anticipated::wellhead_rating::<Off>,
        show: anticipated::wellhead_rating::<Working>,
    },
    Question {
        slug: "control/manifold-rating",
        asks: "Does the choke manifold bear it?",
        title: "choke manifold",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[ANTICIPATED],
        ask: anticipated::manifold_rating::<Off>,
        show: anticipated::manifold_rating::<Working>,
    },
    Question {
        slug: "control/casing-burst",
        asks: "Does the casing above this section bear it, with the share of burst that may be used?",
        title: "casing burst",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[ANTICIPATED, "nothing helps behind the casing; the pressure at surface is the largest across it"],
        ask: anticipated::casing_burst::<Off>,
        show: anticipated::casing_burst::<Working>,
    },
    Question {
        slug: "control/kill-weight",
        asks: "Can the hole hold the mud that kills the design kick, without breaking anywhere?",
        title: "kill mud weight",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &["mud weight", "casing shoe"],
        assumes: &[ONE_MUD],
        ask: kill::kill_weight::<Off>,
        show: kill::kill_weight::<Working>,
    },
    Question {
        slug: "control/kill-pressure",
        asks: "Do liners and surface lines bear the pressure at which the kill starts?",
        title: "start of the kill",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["liner"],
        assumes: &["slow circulating rate as read; a reading in another mud or hole is stale"],
        ask: kill::kill_pressure::<Off>,
        show: kill::kill_pressure::<Working>,
    },
    Question {
        slug: "control/kill",
        asks: "With what weight, pressures and strokes is the design kick killed?",
        title: "killing the design kick",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["the kill sheet proper is made from shut-in readings, by a certified person"],
        ask: kill::kill::<Off>,
        show: kill::kill::<Working>,
    },
    Question {
        slug: "control/accumulator",
        asks: "Does the stored control fluid close every preventer, with the design factor that the rule asks?",
        title: "accumulator",
        kind: Kind::FluidVolume,
        scope: Scope::Rig,
        knobs: &[],
        assumes: &["method B: real nitrogen at one temperature; a fast sequence gives less (method C)"],
        ask: accumulator::accumulator::<Off>,
        show: accumulator::accumulator::<Working>,
    },
];

static NOT_YET: &[(&str, &str)] = &[
    ("control/casing-design", "Do casing strings bear collapse, tension and triaxial load in each case of their life?"),
    ("control/closes-on", "What does the stack close on for each part across it, and which rams shear it?"),
    ("control/barriers", "Are there two tested barriers in each operation?"),
    ("control/kill-schedule", "What do shoe and choke see along the kill, by either method?"),
    ("control/other-methods", "Volumetric, lubricate and bleed, bullheading, stripping: is there room for them?"),
    ("control/separator", "What kill rate does the mud-gas separator bear?"),
    ("control/trip-fill", "How far may the level drop, and what fill does each stand take?"),
    ("control/sour-service", "Does every part on the pressure side bear H2S?"),
    ("control/diverter", "Is shallow gas led away?"),
    ("control/managed-pressure", "Does back pressure hold the anchor depth through a connection, and what if it is lost?"),
    ("control/riser-margin", "Does the mud hold the well if the riser is gone?"),
    ("control/due", "Which tests and drills are due?"),
];
