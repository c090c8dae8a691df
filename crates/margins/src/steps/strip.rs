//! Stripping: the string is put back to bottom through a closed preventer, and mud is let out for the pipe that goes in.

use super::gas::Bears;
use super::{
    Cell, GAIN, HUNDRED_PSI, Input, MARGIN, Maker, Method, NOT_A_SET_POINT, PEOPLE, Refused, SICP, STANDARD_INVALID, STEP,
};
use crate::fields::influx::with_kick;
use crate::geometry::PipePiece;
use crate::{Scene, sweep};
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::control::bubble::Bubble;
use rigwright_physics::control::non_circulating::{SnubbingPressure, StripIntoInfluxRise};
use rigwright_physics::hoisting::BuoyancyFactor;
use rigwright_physics::tubular::{STEEL_DENSITY, SteelDisplacement};
use rigwright_physics::{Formula, Kind, Range, Recorder};
use rigwright_well::Operation;

/// No table is longer.
const MOST: usize = 400;

pub(super) static METHOD: Method = Method {
    slug: "strip",
    title: "stripping back to bottom",
    asks: "a kick with the bit off bottom: how much mud is let out for each stand stripped in, at which casing pressure, and whether pipe still falls by its own weight",
    inputs: &[
        SICP,
        GAIN,
        MARGIN,
        STEP,
        Input {
            key: "influx_weight",
            kind: Kind::Density,
            meaning: "density of the influx",
            otherwise: Some("gas of the design kick at the bottom"),
            must: Range::between(0.0, 2_000.0),
        },
        Input {
            key: "seal_friction",
            kind: Kind::Force,
            meaning: "friction of the pipe in the preventer",
            otherwise: Some("not known: nought, so that pipe falls more easily here than it may"),
            must: Range::NON_NEGATIVE,
        },
    ],
    cautions: &[
        "a float or an inside preventer is in the string, so that it goes in closed and full; otherwise these volumes are wrong",
        "the influx lies at the bottom and does not rise: where casing pressure grows between stands, volumetric steps come on top",
        "the rise of casing pressure as the string enters the influx is kept: letting it out lets in more",
        "a ledger of trip tank and strip tank is kept stand by stand",
        NOT_A_SET_POINT,
        STANDARD_INVALID,
        PEOPLE,
    ],
    make,
};

const COLUMNS: &[(&str, Option<Kind>)] = &[
    ("stand", Some(Kind::Count)),
    ("bit at", Some(Kind::Depth)),
    ("let out", Some(Kind::Volume)),
    ("let out in all", Some(Kind::Volume)),
    ("rise to keep", Some(Kind::Pressure)),
    ("casing pressure", Some(Kind::Pressure)),
    ("left at the weakest rock", Some(Kind::Pressure)),
    ("pipe", None),
];

/// Closed-end displacement of a piece per length. [m³/m]
fn closed_end<R: Recorder>(piece: &PipePiece, rec: &mut R) -> f64 {
    let linear_mass = piece.pipe.linear_mass();
    let steel = rec.take(SteelDisplacement { linear_mass, steel_density: STEEL_DENSITY });
    steel + rec.take(BoreCapacity { inner_diameter: piece.pipe.inner_diameter() })
}

/// Weight of the string in the hole, full of mud, in mud. [N]
fn buoyed(scene: &Scene) -> f64 {
    let air: f64 = scene.string().iter().map(|piece| piece.pipe.linear_mass() * (piece.bottom - piece.top)).sum();
    let factor = BuoyancyFactor { mud_density: scene.section().mud.weight, steel_density: STEEL_DENSITY }.value();
    let path = &scene.fit().well.path;
    // Only the vertical part of the hole lets it fall.
    let upright = path.vertical_depth_at(scene.situation.bit_depth) / scene.situation.bit_depth.max(1e-9);
    air * factor * scene.gravity() * upright.clamp(0.0, 1.0)
}

fn make(maker: &mut Maker) -> Result<(), Refused> {
    let scene = maker.scene;
    let situation = scene.situation;
    if situation.hole_depth - situation.bit_depth < 1.0 {
        return Err(Refused::new("the bit is on bottom: there is nothing to strip", "say where it is with --bit"));
    }
    maker.working.heading("where the well stands");
    let gain = maker.gain()?;
    let intensity = scene.fit().well.kick.intensity;
    let gravity = scene.gravity();
    let bottom = scene.vertical_depth(situation.hole_depth);
    let formation = (maker.mud_weight() + intensity.unwrap_or(0.0)) * gravity * bottom + situation.back_pressure;
    let at_bottom = with_kick(scene, formation, |well| {
        let annulus = well.path.annulus;
        let state = well.path.state(Bubble { below: 0.0, volume: gain, bottom_pressure: formation })?;
        let height = annulus.height(gain);
        let density = if height > 0.0 { (formation - state.top_pressure) / (gravity * height) } else { 0.0 };
        let mud = maker.mud_weight() * gravity * (annulus.height(annulus.volume()) - height);
        Some((density, (state.top_pressure - mud).max(0.0), annulus.volume()))
    });
    let Some(Some((gas, casing, whole))) = at_bottom else {
        return Err(Refused::new("the influx is not one bubble at the bottom of this hole", "follow the manual's own way"));
    };
    if gain >= whole {
        return Err(Refused::new("the gain is larger than the annulus", "check the gain and its unit"));
    }
    let casing = maker.value("sicp", intensity.map(|_| casing))?;
    let margin = maker.value("margin", Some(HUNDRED_PSI))?;
    let step = maker.value("step", Some(HUNDRED_PSI))?;
    let influx_density = maker.value("influx_weight", Some(gas))?;
    let friction_force = maker.value("seal_friction", Some(0.0))?;
    let bears = Bears::new(maker);
    let Some(top) = scene.string().last().copied() else { return Err(Refused::new("no string in the hole", "")) };
    maker.working.heading("a length of pipe, closed at its end");
    let displaced = closed_end(&top, &mut maker.working);
    let stand = scene.fit().rig.mast.stand;
    let mud_weight = maker.mud_weight();

    let height = |scene: &Scene| scene.kick_annulus().map(|annulus| annulus.height(gain));
    let first = height(scene).unwrap_or_default();
    let mut rows = Vec::new();
    let (mut bit, mut out, mut snub) = (situation.bit_depth, 0.0, false);
    let mut worst = f64::INFINITY;
    let mut rise = 0.0;
    while bit < situation.hole_depth - 1e-6 && rows.len() < MOST {
        let next = (bit + stand).min(situation.hole_depth);
        let there = Scene::new(
            scene.basis,
            sweep::situation(scene.fit(), situation.section, Operation::ShutIn, situation.hole_depth, next),
        );
        let Some(now) = height(&there) else { break };
        rise = ((mud_weight - influx_density) * gravity * (now - first)).max(0.0);
        let each = displaced * (next - bit);
        out += each;
        let pressure = casing + margin + step + rise;
        // The gas is under all of these depths, or beside some of them, where it presses less than the mud did.
        let left = bears.left(|point| Some(pressure + mud_weight * gravity * point.vertical_depth)).map(|(left, _)| left);
        worst = worst.min(left.unwrap_or(f64::INFINITY));
        let snubbing = SnubbingPressure { weight: buoyed(&there), friction_force, outer_diameter: top.pipe.joint_diameter() };
        let falls = snubbing.value() > pressure;
        if rows.is_empty() {
            maker.working.heading("whether the first stand falls");
            maker.working.take(snubbing);
        }
        snub |= !falls;
        rows.push(vec![
            Cell::Value((rows.len() + 1) as f64),
            Cell::Value(next),
            Cell::Value(each),
            Cell::Value(out),
            Cell::Value(rise),
            Cell::Value(pressure),
            left.map_or(Cell::Blank, Cell::Value),
            Cell::Words(if falls { "falls" } else { "must be pushed" }),
        ]);
        bit = next;
    }
    let end = Scene::new(
        scene.basis,
        sweep::situation(scene.fit(), situation.section, Operation::ShutIn, situation.hole_depth, situation.hole_depth),
    );
    if let Some(last) = height(&end).filter(|last| *last > 0.0 && first > 0.0) {
        maker.working.heading("the string in the influx, bit on bottom");
        let rise = StripIntoInfluxRise {
            mud_weight,
            influx_density,
            volume: gain,
            annulus_capacity: gain / last,
            hole_capacity: gain / first,
            gravity,
        };
        maker.working.note(|| "capacities are those per vertical height over the whole of the influx".to_owned());
        maker.working.take(rise);
    }
    maker.heading("the steps");
    maker.say("First let casing pressure rise by margin and step without letting anything out. Then strip in a stand and let out its volume at the casing pressure of the row, into the strip tank. Fill the pipe as it goes in.");
    maker.table("stand by stand", COLUMNS, rows);
    if snub {
        maker.warn("Where a row says so the pipe does not fall by its own weight: it must be pushed in, which this rig may not be able to do.");
    }
    if worst < 0.0 {
        maker.pass("The rock is asked for more than it bears: a smaller step and margin, or another method.");
        maker.figure("short by", -worst, Kind::Pressure);
    }
    if let Some((_, least)) = bears.least().filter(|(_, least)| *least < casing + margin + step + rise) {
        maker.pass("Equipment is asked for more than it bears.");
        maker.figure("it bears", least, Kind::Pressure);
    }
    bears.say(maker);
    Ok(())
}
