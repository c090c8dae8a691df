//! The hoisting system: what hangs on mast, blocks and hook, what the line and the drawworks pull, what stands on the
//! floor, and the work of the line.

mod floor;
mod line;
mod load;

use crate::{Question, Scope, System};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

/// The system.
pub static SYSTEM: System = System { name: "hoisting", questions: QUESTIONS, not_yet: NOT_YET };

const SOFT_STRING: &str = "soft string: stiffness, cuttings and viscous drag are left out of torque and drag";
const NO_INERTIA: &str = "no acceleration of the block: a brisk start or stop adds to every load";
const PICKED_UP: &str = "casing is picked up off its slips at every joint, so its friction counts upwards";
const SHEAVES: &str = "every sheave but the dead one turns and has the same tension ratio (API RP 9B)";

static QUESTIONS: &[Question] = &[
    Question {
        slug: "hoisting/hook-load",
        asks: "Does the mast carry the hook load with the lines that are strung?",
        title: "hook load",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["lines strung", "mud weight"],
        assumes: &[
            SOFT_STRING,
            NO_INERTIA,
            PICKED_UP,
            "the mast's rating is for that number of lines; wind and full setback take away what its nameplate says",
        ],
        ask: load::hook_load::<Off>,
        show: load::hook_load::<Working>,
    },
    Question {
        slug: "hoisting/hoist-parts",
        asks: "Do elevators, top drive, hook and travelling block each bear what hangs on them?",
        title: "hoisting parts",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["mud weight"],
        assumes: &[SOFT_STRING, NO_INERTIA, PICKED_UP, "casing hangs in elevators of the rating given for the rig's own"],
        ask: load::hoist_parts::<Off>,
        show: load::hoist_parts::<Working>,
    },
    Question {
        slug: "hoisting/crown-load",
        asks: "Does the crown block bear the hook load with fast and dead line?",
        title: "crown load",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["lines strung", "mud weight"],
        assumes: &[SOFT_STRING, NO_INERTIA, PICKED_UP, SHEAVES],
        ask: load::crown_load::<Off>,
        show: load::crown_load::<Working>,
    },
    Question {
        slug: "hoisting/line-strength",
        asks: "Does the drilling line keep its design factor on the fast line?",
        title: "drilling line",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["lines strung", "mud weight"],
        assumes: &[SOFT_STRING, NO_INERTIA, PICKED_UP, SHEAVES, "the line has the strength of its certificate"],
        ask: line::line_strength::<Off>,
        show: line::line_strength::<Working>,
    },
    Question {
        slug: "hoisting/line-pull",
        asks: "Do the drawworks give the pull on the fast line?",
        title: "line pull",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["lines strung", "mud weight"],
        assumes: &[SOFT_STRING, NO_INERTIA, PICKED_UP, SHEAVES, "line pull as given holds with the drum full"],
        ask: line::line_pull::<Off>,
        show: line::line_pull::<Working>,
    },
    Question {
        slug: "hoisting/drawworks-power",
        asks: "Do the drawworks lift the string at the wanted speed?",
        title: "drawworks power",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: &["lines strung", "mud weight"],
        assumes: &[SOFT_STRING, NO_INERTIA, SHEAVES],
        ask: line::drawworks_power::<Off>,
        show: line::drawworks_power::<Working>,
    },
    Question {
        slug: "hoisting/overpull",
        asks: "Is the wanted overpull left in mast, line and drawworks while pulling out?",
        title: "rig overpull",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["lines strung", "mud weight"],
        assumes: &[
            SOFT_STRING,
            NO_INERTIA,
            SHEAVES,
            "while overpulling the line may fall to the design factor for casing; the pipe is asked in rotating/pipe-overpull",
        ],
        ask: line::overpull::<Off>,
        show: line::overpull::<Working>,
    },
    Question {
        slug: "hoisting/lines-to-string",
        asks: "Do the lines that are strung carry the heaviest string and casing of the section?",
        title: "lines strung",
        kind: Kind::Force,
        scope: Scope::Section,
        knobs: &["lines strung"],
        assumes: &[
            SOFT_STRING,
            NO_INERTIA,
            PICKED_UP,
            SHEAVES,
            "string and casing are heaviest with their lower end at the bottom",
        ],
        ask: line::lines_to_string::<Off>,
        show: line::lines_to_string::<Working>,
    },
    Question {
        slug: "hoisting/setback",
        asks: "Does the setback bear the whole string of the section when it is out of the hole?",
        title: "setback",
        kind: Kind::Force,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["the whole string of the section stands on the floor, in air; pipe of other sections is laid down"],
        ask: floor::setback::<Off>,
        show: floor::setback::<Working>,
    },
    Question {
        slug: "hoisting/racking",
        asks: "Is there room in the fingerboard for the whole string of the section?",
        title: "racking",
        kind: Kind::Count,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["collars stand in places like those of pipe; pipe of other sections is laid down"],
        ask: floor::racking::<Off>,
        show: floor::racking::<Working>,
    },
    Question {
        slug: "hoisting/line-work",
        asks: "How much line work does a round trip from the end of the section cost, and how much its casing?",
        title: "line work",
        kind: Kind::LineWork,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["the rules of API RP 9B: no friction in the hole, no acceleration, weight as in a vertical hole"],
        ask: floor::line_work::<Off>,
        show: floor::line_work::<Working>,
    },
];

static NOT_YET: &[(&str, &str)] = &[
    ("hoisting/worst-leg", "Does the worst leg of the derrick bear its share with fast and dead line?"),
    ("hoisting/dead-line-anchor", "Does the anchor of the dead line bear its pull?"),
    ("hoisting/brake", "Does the brake hold and stop the heaviest casing on its way down?"),
    ("hoisting/slips", "Do the slips hold the string without crushing the pipe?"),
    ("hoisting/stand-height", "Does a stand fit between floor and crown, with clearance for the block?"),
    ("hoisting/setback-with-hook-load", "Does the substructure bear setback and rotary load together?"),
    ("hoisting/raising-line", "Does the raising line keep its design factor?"),
    ("hoisting/slip-and-cut", "When is the line to be slipped and cut?"),
    ("hoisting/trip-time", "How long does a trip take, stand by stand?"),
    ("hoisting/riser-and-stack", "Can riser and stack be run?"),
];
