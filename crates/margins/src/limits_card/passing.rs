//! The design kick on its way out by driller's method: what the choke will show, what may stand there, and which of open hole
//! and equipment sets that.

use super::Bound;
use crate::Scene;
use crate::fields::influx::{formation_pressure, strength, with_kick};
use crate::fields::open_hole::Point;
use rigwright_physics::control::circulate::{Circulation, KillMethod};
use rigwright_physics::{Off, Recorder, numerics};

/// Even steps of the march.
const STEPS: u32 = 60;

/// An instant of the way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passage {
    /// What happens.
    pub what: &'static str,
    /// Volume pumped. [m³]
    pub pumped: f64,
    /// Pressure that the choke will show. [Pa]
    pub choke: f64,
    /// Pressure at which the open hole would break, were the choke closed in further; `None` where its strength is unknown. [Pa]
    pub open_hole: Option<f64>,
    /// The least that casing and equipment bear at surface. [Pa]
    pub equipment: Option<f64>,
}

impl Passage {
    /// Whether the open hole allows less than the equipment, where both are known.
    pub fn open_hole_governs(&self) -> Option<bool> {
        Some(self.open_hole? <= self.equipment?)
    }
}

/// The way of the design kick.
#[derive(Clone, Debug, PartialEq)]
pub struct Passing {
    /// Its volume at the bottom. [m³]
    pub volume: f64,
    /// Formation pressure. [Pa]
    pub formation_pressure: f64,
    /// The instants that matter.
    pub instants: Vec<Passage>,
    /// Volume pumped when open hole and equipment change places; `None` where one of them governs all the way. [m³]
    pub change: Option<f64>,
}

/// The design kick on its way out; `None` without one, where it is no single bubble, or where gas leaves its correlation.
pub(super) fn passing<R: Recorder>(scene: &Scene, shoe: f64, bounds: &[Bound], rec: &mut R) -> Option<Passing> {
    let kick = scene.fit().well.kick;
    let (volume, intensity) = kick.volume.zip(kick.intensity)?;
    rec.heading("the design kick, by driller's method");
    let formation_pressure = formation_pressure(scene, intensity, rec);
    let points = scene.prepared_flow().open_hole.above(scene.situation.hole_depth);
    let strengths: Option<Vec<(Point, f64)>> =
        points.iter().map(|point| Some((*point, strength(scene, point, &mut Off)?))).collect();
    let surface = bounds.iter().filter(|bound| !bound.open_hole);
    // What nobody gave is not left out: then the least is unknown.
    let equipment: Option<f64> = surface.map(|bound| bound.still).collect::<Option<Vec<f64>>>()?.into_iter().reduce(f64::min);
    with_kick(scene, formation_pressure, |well| {
        let annulus = well.path.annulus;
        let weak_depth = scene.vertical_depth(shoe);
        let method = KillMethod::Driller;
        let circulation = Circulation { well: *well, influx: volume, method, overbalance: 0.0, weak_depth, steps: STEPS };
        let march = circulation.march(rec)?;
        let depths: Vec<f64> = strengths.iter().flatten().map(|(point, _)| point.vertical_depth).collect();
        let at = |what: &'static str, pumped: f64| {
            let choke = circulation.instant(&mut Off, pumped)?.choke_pressure;
            let there = circulation.pressures_at(pumped, &depths)?;
            let left = strengths.as_ref().and_then(|strengths| {
                strengths.iter().zip(&there).map(|((_, strength), pressure)| strength - pressure).reduce(f64::min)
            });
            Some(Passage { what, pumped, choke, open_hole: left.map(|left| choke + left), equipment })
        };
        let total = annulus.volume();
        let surface = annulus.vertical_depth(total);
        let marks = [
            ("shut in", Some(0.0)),
            ("gas comes to the shoe", circulation.pumped_when_top_at(weak_depth)),
            ("all gas above the shoe", Some(annulus.volume_below(weak_depth))),
            ("half-way from there to surface", half_way(&circulation, annulus.volume_below(weak_depth), surface)),
            ("gas comes to surface", circulation.pumped_when_top_at(surface)),
            ("all gas out", Some(total)),
        ];
        let mut instants: Vec<Passage> = marks.into_iter().filter_map(|(what, pumped)| at(what, pumped?)).collect();
        instants.sort_by(|a, b| a.pumped.total_cmp(&b.pumped));
        // Where the one that governs changes, solved between two instants of the march.
        let over = |pumped: f64| at("", pumped).and_then(|at| Some(at.open_hole? - at.equipment?));
        let pairs = march.instants.windows(2).map(|pair| (pair[0].pumped, pair[1].pumped));
        let change = pairs
            .filter_map(|(from, to)| Some((from, to, over(from)?, over(to)?)))
            .find(|(.., before, after)| (*before <= 0.0) != (*after <= 0.0))
            .and_then(|(from, to, ..)| numerics::root(|pumped| over(pumped).unwrap_or(f64::NAN), from, to));
        Some(Passing { volume, formation_pressure, instants, change })
    })?
}

/// Volume pumped half-way between all gas above the shoe and gas at surface.
fn half_way(circulation: &Circulation, above: f64, surface: f64) -> Option<f64> {
    circulation.pumped_when_top_at(surface).map(|arrives| 0.5 * (above + arrives))
}
