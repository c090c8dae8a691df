//! Pressure control: what may come to surface and what bears it, how much gas may come in, how the well is killed, and
//! the fluid that closes the preventers.

mod accumulator;
mod annuli;
mod barriers;
mod bump;
mod casing;
mod cement;
mod closes_on;
mod detection;
mod diverter;
mod kill;
pub(crate) mod managed;
mod preventers;
pub(crate) mod ratings;
mod seat;
mod separator;
pub(crate) mod shut_in;
pub(crate) mod subsea;
mod subsea_gas;
pub(crate) mod tolerance;
mod trip;

#[cfg(test)]
mod tests;

use crate::answer::Answer;
use crate::question::{Question, Scope, System};
use crate::scene::Scene;
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

const ONE_BUBBLE: &str = "one bubble of gas that fills the annulus over its length: no slip, no solution, no dispersion; in oil-based mud gas dissolves and the figures are not to be relied on";
const ROCK_HEAT: &str = "gas as warm as the undisturbed rock around it; compressibility factor of Dranchuk and Abou-Kassem";
const LARGER: &str = "formation pressure: mud, back pressure with pumps off, and the kick intensity on top";
const PORE_TABLE: &str = "formation pressure as in the table of formations";
const SEA_OUTSIDE: &str = "on the sea bed preventers and wellhead bear what is inside less the sea outside";
const LIGHT_GAS: &str =
    "the smaller of gas to surface and the shoe breaking under gas, with the wanted fracture margin on top of the shoe";
const NO_PVT: &str = "mud weight is that at surface: where heat makes the column lighter, less is left than is told";
const SQUEEZED: &str = "the kick stands over the mud's own column, reckoned as at surface; weak rock bears less by what pressure adds to it, as the retort says; heat makes it lighter, which is not counted: the safe side";
const AT_SURFACE: &str =
    "weights are those to be mixed at surface: pressure and heat change old and kill mud alike, and drop out between them";

const CEMENT_SET: &str =
    "hung freely until the cement sets, then held at the hanger and along the cement: heat, drag and buckling left out";
const OWN_MUD: &str = "the plug is displaced with the mud of the section, and the string is tested on it";
const NO_WEAR: &str = "production, wear and corrosion are not looked at";

/// Before the first casing there is nothing to shut the well in on.
const DIVERTED: Answer = Answer::DoesNotArise("no casing to shut the well in on: shallow flow is diverted");

/// Whether there are casing and preventers to shut the well in with.
pub(crate) fn can_shut_in(scene: &Scene) -> bool {
    let section = scene.situation.section;
    scene.fit().well.casing_above(section).is_some() && scene.fit().open_to_sea(section).is_none()
}

/// The system.
pub static SYSTEM: System = System {
    name: "control",
    parts: &[
        QUESTIONS,
        detection::QUESTIONS,
        seat::QUESTIONS,
        bump::QUESTIONS,
        cement::QUESTIONS,
        annuli::QUESTIONS,
        subsea_gas::QUESTIONS,
        preventers::QUESTIONS,
        separator::QUESTIONS,
        diverter::QUESTIONS,
        barriers::QUESTIONS,
        managed::QUESTIONS,
    ],
    not_yet: &[],
};

const QUESTIONS: &[Question] = &[
    Question {
        slug: "control/stack-rating",
        asks: "Do the ram preventers bear the pressure that may come to surface?",
        title: "preventer rating",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["casing seat"],
        assumes: &[
            LIGHT_GAS,
            PORE_TABLE,
            ROCK_HEAT,
            SEA_OUTSIDE,
            "the annular preventer may carry less: rams hold what it does not",
        ],
        ask: ratings::stack::<Off>,
        show: ratings::stack::<Working>,
    },
    Question {
        slug: "control/wellhead-rating",
        asks: "Does the wellhead bear the pressure that may come to surface?",
        title: "wellhead rating",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["casing seat"],
        assumes: &[LIGHT_GAS, PORE_TABLE, ROCK_HEAT, SEA_OUTSIDE],
        ask: ratings::wellhead::<Off>,
        show: ratings::wellhead::<Working>,
    },
    Question {
        slug: "control/manifold-rating",
        asks: "Does the choke manifold bear the pressure that may come to surface?",
        title: "choke manifold rating",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["casing seat"],
        assumes: &[LIGHT_GAS, PORE_TABLE, ROCK_HEAT],
        ask: ratings::manifold::<Off>,
        show: ratings::manifold::<Working>,
    },
    Question {
        slug: "control/casing-burst",
        asks: "Does the casing in the hole bear the pressure that may come to surface?",
        title: "casing burst",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["casing seat"],
        assumes: &[
            LIGHT_GAS,
            PORE_TABLE,
            ROCK_HEAT,
            "fresh water behind the casing, gas inside: what lies behind is at least that heavy",
            "body of the pipe without wear; connections and tension: see control/casing-pressure and control/casing-triaxial",
        ],
        ask: ratings::casing_burst::<Off>,
        show: ratings::casing_burst::<Working>,
    },
    Question {
        slug: "control/casing-pressure",
        asks: "Do body and connection of the casing bear plug bump, pressure test and gas from below?",
        title: "casing, inside pressure",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["casing weight", "casing grade"],
        assumes: &[LIGHT_GAS, OWN_MUD, "fresh water behind the casing once the cement has set", NO_WEAR],
        ask: casing::inside::<Off>,
        show: casing::inside::<Working>,
    },
    Question {
        slug: "control/casing-collapse",
        asks: "Does the casing bear its cement, and the mud around it when returns are lost below?",
        title: "casing collapse",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["casing weight", "casing grade"],
        assumes: &[
            OWN_MUD,
            CEMENT_SET,
            "floats hold, nothing is left on top of the mud inside",
            "lost returns: the level stands where mud balances the pore pressure of the rock below; outside the mud as it was run in, cement gives no support",
            NO_WEAR,
        ],
        ask: casing::collapse::<Off>,
        show: casing::collapse::<Working>,
    },
    Question {
        slug: "control/casing-tension",
        asks: "Do body and connection of the casing bear running with overpull, plug bump, test and gas from below?",
        title: "casing tension",
        kind: Kind::Force,
        scope: Scope::Section,
        knobs: &["casing weight", "casing grade"],
        assumes: &[OWN_MUD, CEMENT_SET, "soft string for drag while it is run; bending is in control/casing-triaxial", NO_WEAR],
        ask: casing::tension::<Off>,
        show: casing::tension::<Working>,
    },
    Question {
        slug: "control/casing-triaxial",
        asks: "Does the casing bear pressure, tension and bending all together in every load case?",
        title: "casing, all loads",
        kind: Kind::Stress,
        scope: Scope::Section,
        knobs: &["casing weight", "casing grade"],
        assumes: &[
            LIGHT_GAS,
            OWN_MUD,
            CEMENT_SET,
            "the casing bends as the hole does; connections have no figure for all loads",
            NO_WEAR,
        ],
        ask: casing::triaxial::<Off>,
        show: casing::triaxial::<Working>,
    },
    Question {
        slug: "control/closes-on",
        asks: "Do two sets of rams close on every size of drill pipe and heavy-weight pipe?",
        title: "rams for the pipe",
        kind: Kind::Count,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["collars, tools and casing are closed on by the annular, or not at all; tool joints are spaced out"],
        ask: closes_on::closes_on::<Off>,
        show: closes_on::closes_on::<Working>,
    },
    Question {
        slug: "control/annular-pressure",
        asks: "Shut in on the design kick, does the casing pressure stay below what shoe, casing and ratings allow?",
        title: "shut-in casing pressure",
        kind: Kind::Pressure,
        scope: Scope::Situation,
        knobs: &["mud weight"],
        assumes: &[ONE_BUBBLE, ROCK_HEAT, LARGER, SQUEEZED, "weak points beside the gas itself: see kick tolerance"],
        ask: shut_in::annular_pressure::<Off>,
        show: shut_in::annular_pressure::<Working>,
    },
    Question {
        slug: "control/kick-tolerance",
        asks: "Can the design kick be shut in and circulated out without breaking the weakest depth, at every depth drilled?",
        title: "kick tolerance, drilled",
        kind: Kind::Volume,
        scope: Scope::Situation,
        knobs: &["mud weight", "casing seat"],
        assumes: &[
            ONE_BUBBLE,
            ROCK_HEAT,
            LARGER,
            SQUEEZED,
            "volume at the bottom; initial shut-in and gas at the weak point, the smaller; bottom-hole pressure held at formation pressure, without a margin for the choke",
        ],
        ask: tolerance::drilled::<Off>,
        show: tolerance::drilled::<Working>,
    },
    Question {
        slug: "control/swabbed-kick",
        asks: "Can the design volume, swabbed in without intensity, be shut in and circulated out without breaking the weakest depth?",
        title: "kick tolerance, swabbed",
        kind: Kind::Volume,
        scope: Scope::Situation,
        knobs: &["mud weight", "casing seat"],
        assumes: &[ONE_BUBBLE, ROCK_HEAT, SQUEEZED, "bit back on bottom; volume at the bottom, the smaller of both instants"],
        ask: tolerance::swabbed::<Off>,
        show: tolerance::swabbed::<Working>,
    },
    Question {
        slug: "control/kill-weight",
        asks: "Does every depth of open hole bear the kill mud, still?",
        title: "kill mud weight",
        kind: Kind::Density,
        scope: Scope::Situation,
        knobs: &["casing seat"],
        assumes: &[LARGER, SQUEEZED, "kill mud as heavy as the kick asks, without trip margin"],
        ask: kill::kill_weight::<Off>,
        show: kill::kill_weight::<Working>,
    },
    Question {
        slug: "control/kill-pressure",
        asks: "Do liners and surface lines bear the initial circulating pressure?",
        title: "initial kill pressure",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["liner"],
        assumes: &[LARGER, "slow rate pressure in proportion to mud weight"],
        ask: kill::kill_pressure::<Off>,
        show: kill::kill_pressure::<Working>,
    },
    Question {
        slug: "control/kill",
        asks: "Which weight, pressures and strokes kill the design kick?",
        title: "kill figures",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[ONE_BUBBLE, ROCK_HEAT, LARGER, AT_SURFACE, "friction in the annulus left out", "kill mud weight not rounded"],
        ask: kill::figures::<Off>,
        show: kill::figures::<Working>,
    },
    Question {
        slug: "control/accumulator",
        asks: "Do the bottles hold the fluid that closes all preventers, with the design factor, without pumps?",
        title: "accumulator",
        kind: Kind::FluidVolume,
        scope: Scope::Rig,
        knobs: &[],
        assumes: &[
            "method B: real nitrogen at one temperature; a sequence in half a minute gives about half of it",
            "one closing of every preventer",
        ],
        ask: accumulator::accumulator::<Off>,
        show: accumulator::accumulator::<Working>,
    },
    Question {
        slug: "control/trip-fill",
        asks: "How much mud fills the hole for a stand of drill pipe, and how many stands may come out before it must?",
        title: "trip fill",
        kind: Kind::Volume,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["75 psi by 30 CFR 250.456 (from memory; verify the current text); five stands whichever drops less"],
        ask: trip::fill::<Off>,
        show: trip::fill::<Working>,
    },
    Question {
        slug: "control/riser-margin",
        asks: "Does the well stay balanced when the riser is lost: mud up to the sea bed, the sea above it?",
        title: "riser margin",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &["mud weight"],
        assumes: &["the riser parts at the sea bed and its mud is gone", NO_PVT],
        ask: subsea::riser_margin::<Off>,
        show: subsea::riser_margin::<Working>,
    },
    Question {
        slug: "control/choke-line",
        asks: "Does the rock bear the loss in the choke line on top of the kill mud, at the end of the kill?",
        title: "choke line friction",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["the slow rate, choke wide open, kill mud all the way up; friction in the annulus left out", SQUEEZED],
        ask: subsea::choke_line::<Off>,
        show: subsea::choke_line::<Working>,
    },
];
