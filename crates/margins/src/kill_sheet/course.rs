//! Driller's method and wait and weight beside each other: pressures along the way by the march of one bubble.
//!
//! Both hold formation pressure at the bottom, so that they can be compared; what the rounding of the kill weight adds is
//! told on the sheet. Friction in the annulus is left out.

use super::Ground;
use crate::fields::influx::left_for_kick;
use crate::fields::open_hole::{self, Point};
use rigwright_physics::control::circulate::{Circulation, Instant, KillMethod};
use rigwright_physics::control::tolerance::KickWell;
use rigwright_physics::{Off, Recorder};

/// Even steps of the march.
const STEPS: u32 = 60;
/// Even rows that are told besides the instants that matter.
const EVEN_ROWS: u32 = 6;
/// Pressures closer than this are one: 1 psi. [Pa]
pub(super) const SAME_PRESSURE: f64 = 6_894.757;

/// Volumes of gas closer than this share are one.
const SAME_VOLUME: f64 = 1e-3;

/// A highest value, and when the gauge first shows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// The value: a pressure or a volume. [Pa or m³]
    pub value: f64,
    /// Volume pumped when that is first read, by a gauge that shows no less than 1 psi or a thousandth of the gas. [m³]
    pub pumped: f64,
}

impl Peak {
    /// Of values with the volumes pumped, in order; `same` is what the gauge does not show.
    fn of(values: impl Iterator<Item = (f64, f64)> + Clone, same: impl Fn(f64) -> f64) -> Peak {
        let value = values.clone().map(|(value, _)| value).fold(f64::NEG_INFINITY, f64::max);
        let first = values.clone().find(|(here, _)| *here >= value - same(value));
        Peak { value, pumped: first.map_or(0.0, |(_, pumped)| pumped) }
    }

    fn of_pressure(values: impl Iterator<Item = (f64, f64)> + Clone) -> Peak {
        Peak::of(values, |_| SAME_PRESSURE)
    }
}

/// Volumes pumped at the instants that matter. [m³]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instants {
    /// The top of the gas comes to the shoe; `None` when it is above from the start.
    pub gas_at_shoe: Option<f64>,
    /// All of the gas is above the shoe.
    pub gas_above_shoe: f64,
    /// The top of the gas comes to surface.
    pub gas_at_surface: Option<f64>,
    /// All of the gas is out.
    pub gas_out: f64,
    /// Kill mud comes out of the bit; only with wait and weight.
    pub kill_mud_at_bit: Option<f64>,
    /// The circulation ends.
    pub end: f64,
}

/// A row of a course.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// What happens; empty for an even step.
    pub what: &'static str,
    /// The instant; its weak pressure is that of the shoe.
    pub instant: Instant,
    /// Pressure at the weakest depth, where one is known. [Pa]
    pub weakest: Option<f64>,
}

/// The way of the pressures by one method.
#[derive(Clone, Debug)]
pub struct Course {
    /// The method.
    pub method: KillMethod,
    /// When what happens.
    pub instants: Instants,
    /// Highest pressure at the choke.
    pub choke: Peak,
    /// Highest pressure at the shoe.
    pub shoe: Peak,
    /// Largest volume of gas: the pit gain.
    pub gain: Peak,
    /// Highest pressure at each depth of open hole.
    depths: Vec<Peak>,
    /// Rows for print.
    pub rows: Vec<Row>,
}

/// The depth of open hole that comes nearest to breaking.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeakPoint {
    /// The depth and what it bears.
    pub point: Point,
    /// What it bears. [Pa]
    pub strength: f64,
    /// Pressure there when shut in. [Pa]
    pub shut_in: f64,
    /// Highest pressure there by driller's method.
    pub driller: Peak,
    /// Highest pressure there by wait and weight.
    pub weighted: Peak,
    /// Whether the strength of some depth is not known.
    pub unknown: bool,
}

/// Both courses.
pub(super) struct Courses {
    pub(super) driller: Course,
    pub(super) weighted: Course,
    pub(super) weakest: Option<WeakPoint>,
}

/// Which method is kinder to the shoe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kinder {
    /// Wait and weight, by a pressure: kill mud turned the bit before the peak of driller's method. [Pa]
    WaitAndWeight {
        /// By how much. [Pa]
        by: f64,
    },
    /// Neither: the gas is past the shoe before kill mud turns the bit, or no kill mud is needed.
    Alike,
}

impl Kinder {
    pub(super) fn of(driller: &Course, weighted: &Course) -> Kinder {
        let by = driller.shoe.value - weighted.shoe.value;
        if by > SAME_PRESSURE { Kinder::WaitAndWeight { by } } else { Kinder::Alike }
    }
}

/// The courses of a kick, with kill mud of the weight that just holds it; `None` where the gas leaves the range of its correlation.
pub(super) fn courses<R: Recorder>(ground: Ground, well: &KickWell, kill_weight: f64, rec: &mut R) -> Option<Courses> {
    let Ground { scene, order, volumes, .. } = ground;
    let prepared = scene.prepared_flow().open_hole.above(order.hole_depth).iter().copied();
    let points = prepared.chain(open_hole::point(scene.fit(), order.hole_depth));
    let points: Vec<Point> = points.map(|point| left_for_kick(scene, &point)).collect();
    let shoe = scene.vertical_depth(volumes.shoe);
    let circulation = |method| Circulation {
        well: *well,
        influx: order.readings.gain,
        method,
        overbalance: 0.0,
        weak_depth: shoe,
        steps: STEPS,
    };
    let driller = circulation(KillMethod::Driller);
    let weighted = circulation(KillMethod::WaitAndWeight { kill_weight, string_volume: volumes.to_bit() });
    let depths: Vec<f64> = points.iter().map(|point| point.vertical_depth).collect();
    rec.heading("driller's method, first circulation; the weak point is the shoe");
    let mut first = course(&driller, &depths, rec)?;
    rec.heading("wait and weight; the weak point is the shoe");
    let mut second = course(&weighted, &depths, rec)?;
    let at_shut_in = driller.pressures_at(0.0, &depths)?;
    let unknown = points.iter().any(|point| point.fracture.is_none());
    let known = points.iter().enumerate().filter_map(|(index, point)| {
        let strength = point.fracture?;
        let (driller, weighted) = (*first.depths.get(index)?, *second.depths.get(index)?);
        Some(WeakPoint { point: *point, strength, shut_in: *at_shut_in.get(index)?, driller, weighted, unknown })
    });
    let left = |weak: &WeakPoint| weak.strength - weak.driller.value.max(weak.weighted.value);
    let weakest = known.min_by(|a, b| left(a).total_cmp(&left(b)));
    if let Some(weak) = &weakest {
        for (circulation, course) in [(&driller, &mut first), (&weighted, &mut second)] {
            for row in &mut course.rows {
                let there = circulation.pressures_at(row.instant.pumped, &[weak.point.vertical_depth])?;
                row.weakest = there.first().copied();
            }
        }
    }
    Some(Courses { driller: first, weighted: second, weakest })
}

fn course<R: Recorder>(circulation: &Circulation, depths: &[f64], rec: &mut R) -> Option<Course> {
    let march = circulation.march(rec)?;
    let annulus = circulation.well.path.annulus;
    let total = annulus.volume();
    let kill_mud_at_bit = match circulation.method {
        KillMethod::Driller => None,
        KillMethod::WaitAndWeight { string_volume, .. } => Some(string_volume),
    };
    let instants = Instants {
        gas_at_shoe: circulation.pumped_when_top_at(circulation.weak_depth),
        gas_above_shoe: annulus.volume_below(circulation.weak_depth),
        gas_at_surface: circulation.pumped_when_top_at(annulus.vertical_depth(total)),
        gas_out: total,
        kill_mud_at_bit,
        end: total + kill_mud_at_bit.unwrap_or(0.0),
    };
    let way = march.instants.iter();
    let choke = Peak::of_pressure(way.clone().map(|instant| (instant.choke_pressure, instant.pumped)));
    let shoe = Peak::of_pressure(way.clone().map(|instant| (instant.weak_pressure, instant.pumped)));
    let gain = Peak::of(way.clone().map(|instant| (instant.gas_volume, instant.pumped)), |most| SAME_VOLUME * most);
    let there: Option<Vec<Vec<f64>>> = way.clone().map(|instant| circulation.pressures_at(instant.pumped, depths)).collect();
    let there = there?;
    let along = |index: usize| there.iter().zip(way.clone()).map(move |(pressures, at)| (pressures[index], at.pumped));
    let peaks = (0..depths.len()).map(|index| Peak::of_pressure(along(index))).collect();
    let mut marks = vec![
        ("shut in", Some(0.0)),
        ("gas comes to the shoe", instants.gas_at_shoe),
        ("all gas above the shoe", Some(instants.gas_above_shoe)),
        ("kill mud at the bit", kill_mud_at_bit),
        ("gas comes to surface", instants.gas_at_surface),
        ("all gas out", Some(instants.gas_out)),
        ("end", Some(instants.end)),
        ("highest at the choke", Some(choke.pumped)),
        ("highest at the shoe", Some(shoe.pumped)),
    ];
    marks.extend((1..EVEN_ROWS).map(|step| ("", Some(instants.end * f64::from(step) / f64::from(EVEN_ROWS)))));
    let mut marks: Vec<(&str, f64)> = marks.into_iter().filter_map(|(what, pumped)| Some((what, pumped?))).collect();
    // Stable: of marks at one instant the first in the list above is kept.
    marks.sort_by(|a, b| a.1.total_cmp(&b.1));
    marks.dedup_by(|next, kept| next.1 - kept.1 < 1e-6 * instants.end);
    let rows: Option<Vec<Row>> = marks
        .into_iter()
        .map(|(what, pumped)| Some(Row { what, instant: circulation.instant(&mut Off, pumped)?, weakest: None }))
        .collect();
    Some(Course { method: circulation.method, instants, choke, shoe, gain, depths: peaks, rows: rows? })
}
