//! Casing seats from the bottom up: how shallow the shoe above a section may stand, by the window and by the design kick, and
//! the seat of the well file judged by it.

use super::shut_in::design_kick;
use super::{LARGER, ONE_BUBBLE, ROCK_HEAT, SQUEEZED, can_shut_in};
use crate::fields::influx::{formation_pressure, left_for_kick, strength, with_kick};
use crate::fields::open_hole::{Point, point};
use crate::question::{Question, Scope};
use crate::{Answer, Judged, Limit, Place, Scene, sweep};
use rigwright_physics::circulating::column::EquivalentMudWeight;
use rigwright_physics::control::tolerance::{KickWell, WeakPoint};
use rigwright_physics::{Formula, Kind, Off, Recorder, Working};

pub(super) const QUESTIONS: &[Question] = &[Question {
    slug: "control/seat",
    asks: "Does the shoe above stand as deep as the window and the design kick of this section ask?",
    title: "casing seat",
    kind: Kind::Depth,
    scope: Scope::Section,
    knobs: &["casing seat", "mud weight"],
    assumes: &[
        "from the bottom up: every depth below the shoe bears the mud of the section, still, with the wanted margin, and the design kick of its end",
        "the rock by the table of formations; a shoe test counts at its own shoe alone (see control/kick-tolerance)",
        "the annulus as the file's own seat makes it; differential sticking, losses and troublesome rock may ask for more",
        ONE_BUBBLE,
        ROCK_HEAT,
        LARGER,
        SQUEEZED,
    ],
    ask: seat::<Off>,
    show: seat::<Working>,
}];

/// How close two depths are held apart. [m]
const NEAR: f64 = 0.01;
/// Least room above a seat that is asked for. [m]
const LEAST_STEP: f64 = 1.0;

/// What a depth says to standing open.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Stands {
    /// It bears mud and kick.
    Open,
    /// The mud is too heavy for it.
    Mud,
    /// The design kick breaks it.
    Kick,
    /// Nobody knows its strength.
    Unknown,
}

/// What is asked of every depth below a shoe.
struct Asked<'a, 'b, 'c> {
    scene: &'a Scene<'b>,
    well: &'a KickWell<'c>,
    /// Design kick at the bottom. [m³]
    volume: f64,
}

impl Asked<'_, '_, '_> {
    /// Of a depth with what it has left for a kick. `None` where the gas leaves the range of its correlation.
    fn of(&self, at: &Point) -> Option<Stands> {
        let Some(fracture) = at.fracture else { return Some(Stands::Unknown) };
        let vertical_depth = at.vertical_depth;
        let weight = self.scene.section().mud.weight + self.scene.fit().well.margins.fracture;
        if fracture < weight * self.scene.gravity() * vertical_depth {
            return Some(Stands::Mud);
        }
        let weak = WeakPoint { vertical_depth, allowed_pressure: fracture };
        if self.well.lets_pass(weak) >= self.volume {
            return Some(Stands::Open);
        }
        let allowed = self.well.governing(weak)?;
        let everything = matches!(allowed, rigwright_physics::control::tolerance::Allowed::Everything(_));
        Some(if everything || allowed.volume() >= self.volume { Stands::Open } else { Stands::Kick })
    }

    /// The shallowest seat below which all is open, and what stands above it; the top where nothing asks for casing.
    fn shallowest(&self, depths: &[f64]) -> Option<(f64, Stands)> {
        let fit = self.scene.fit();
        let at = |depth: f64| point(fit, depth).map_or(Some(Stands::Open), |point| self.of(&left_for_kick(self.scene, &point)));
        let mut open = *depths.last()?;
        for &depth in depths.iter().rev() {
            let stands = at(depth)?;
            if stands == Stands::Open {
                open = depth;
                continue;
            }
            // Within a layer both run straight, so that the change between two depths is one.
            let (mut low, mut high, mut stands) = (depth, open, stands);
            while high - low > NEAR {
                let middle = 0.5 * (low + high);
                match at(middle)? {
                    Stands::Open => high = middle,
                    other => (low, stands) = (middle, other),
                }
            }
            return Some((high, stands));
        }
        Some((open, Stands::Open))
    }
}

/// Measured depths at which the strength of the rock can turn, from the top down to the end of the section.
fn depths(scene: &Scene) -> Vec<f64> {
    let well = &scene.fit().well;
    let top = well.sea_bed().unwrap_or(0.0).max(well.formations.first().map_or(0.0, |first| first.top)) + LEAST_STEP;
    let bottom = scene.section().bottom;
    let mut depths: Vec<f64> = well.path.stations().iter().map(|station| station.depth).collect();
    depths.extend([top, bottom]);
    depths.extend(sweep::layer_tops(scene.fit()).flat_map(|depth| [depth - NEAR, depth + NEAR]));
    depths.retain(|depth| (top..=bottom).contains(depth));
    depths.sort_by(f64::total_cmp);
    depths
}

fn seat<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if !can_shut_in(scene) {
        return super::DIVERTED;
    }
    let Some(casing) = fit.well.casing_above(scene.situation.section) else { return super::DIVERTED };
    let (volume, intensity) = match design_kick(scene) {
        Ok(kick) => kick,
        Err(missing) => return missing,
    };
    rec.heading("the kick that every depth below the shoe has to bear");
    let formation_pressure = formation_pressure(scene, intensity, rec);
    rec.given("design kick at the bottom", volume, Kind::Volume);
    let depths = depths(scene);
    let found = with_kick(scene, formation_pressure, |well| {
        let asked = Asked { scene, well, volume };
        let found = asked.shallowest(&depths)?;
        if R::ON {
            show(&asked, &depths, found, rec);
        }
        Some(found)
    });
    let Some(found) = found else {
        return Answer::DoesNotArise("the hole climbs towards its end: a bubble does not stand at the bottom");
    };
    let Some((demand, stands)) = found else { return Answer::DoesNotArise("the gas leaves the range of its correlation") };
    // Rock of unknown strength below the shoe must not look as if it held; above, casing covers it.
    if stands == Stands::Unknown && demand > casing.shoe {
        return Answer::Missing(vec!["formation[].fracture"]);
    }
    let name = match stands {
        Stands::Open => "seat; nothing below it asks for casing",
        Stands::Mud => "seat, asked for by the mud weight",
        Stands::Kick => "seat, asked for by the design kick",
        Stands::Unknown => "seat, below rock of unknown strength",
    };
    let limit =
        Limit { capacity: casing.shoe, reserve: casing.joint_length, name, source: "shoe in the well file; a joint to spare" };
    Answer::Judged(Judged { demand, limit, place: Place::Depth(demand), zero: 0.0 })
}

/// The depths from the bottom up with what each bears, and the seat.
fn show<R: Recorder>(asked: &Asked, depths: &[f64], (seat, stands): (f64, Stands), rec: &mut R) {
    const COLUMNS: &[(&str, Kind)] = &[
        ("measured depth", Kind::Depth),
        ("vertical depth", Kind::Depth),
        ("rock bears", Kind::Density),
        ("mud and margin", Kind::Density),
        ("kick that it bears", Kind::Volume),
    ];
    let (scene, fit) = (asked.scene, asked.scene.fit());
    let gravity = scene.gravity();
    let weight = scene.section().mud.weight + fit.well.margins.fracture;
    rec.heading("from the bottom up");
    rec.table("what each depth bears, standing open", COLUMNS, || {
        let row = |depth: &f64| {
            let point = left_for_kick(scene, &point(fit, *depth)?);
            let (vertical_depth, allowed_pressure) = (point.vertical_depth, point.fracture?);
            let bears = EquivalentMudWeight { pressure: allowed_pressure, vertical_depth, gravity }.value();
            let kick = asked.well.governing(WeakPoint { vertical_depth, allowed_pressure })?.volume();
            Some(vec![*depth, vertical_depth, bears, weight, kick])
        };
        depths.iter().rev().filter_map(row).collect()
    });
    rec.note(|| {
        "Where the whole hole below a depth may fill with gas, its volume is told: such a depth sets no limit.".to_owned()
    });
    rec.heading("the shallowest seat");
    rec.note(|| {
        match stands {
            Stands::Open => "No depth up to the top asks for casing.",
            Stands::Mud => "Just above it the mud with its margin is too heavy for the rock.",
            Stands::Kick => "Just above it the design kick breaks the rock.",
            Stands::Unknown => "Just above it nobody knows the strength of the rock.",
        }
        .to_owned()
    });
    rec.given("measured depth", seat, Kind::Depth);
    if let Some(point) = point(fit, seat)
        && let Some(fracture) = strength(scene, &point, rec)
    {
        rec.given("pressure that it bears of mud as heavy as at surface", fracture, Kind::Pressure);
        rec.take(EquivalentMudWeight { pressure: fracture, vertical_depth: point.vertical_depth, gravity });
        asked.well.tolerance(rec, WeakPoint { vertical_depth: point.vertical_depth, allowed_pressure: fracture });
    }
}
