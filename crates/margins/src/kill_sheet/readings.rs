//! What the gauges and the pits read, and whether it can be.

use super::{Order, Remark, Volumes};
use crate::Scene;
use crate::control::ratings::stack_limit;
use rigwright_physics::Kind;
use rigwright_well::MudKind;

/// Whether a float stands in the string.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Float {
    /// Nobody said.
    Unsaid,
    /// There is none.
    None,
    /// There is one, and the drill pipe pressure was read by bumping it.
    Bumped,
}

/// Shut-in readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Readings {
    /// Shut-in drill pipe pressure. [Pa]
    pub drill_pipe_pressure: f64,
    /// Shut-in casing pressure. [Pa]
    pub casing_pressure: f64,
    /// Pit gain. [m³]
    pub gain: f64,
    /// How far off the pit gain may be either way, where the reader said. [m³]
    pub gain_error: Option<f64>,
    /// The float.
    pub float: Float,
}

/// Pressures closer than this are one on a gauge. [Pa] (from memory: gauges of the choke panel are read to 10 psi)
pub(super) const GAUGE: f64 = 10.0 * 6_894.757;

/// What to beware of in readings that may be, or why they cannot be.
pub(super) fn check(scene: &Scene, order: &Order, volumes: &Volumes) -> Result<Vec<Remark>, Vec<Remark>> {
    let readings = &order.readings;
    let refusals: Vec<Remark> = [
        float_unread(scene, readings),
        above_ratings(scene, readings),
        (readings.gain >= volumes.bit_to_surface()).then(|| {
            Remark::new("the gain is larger than the annulus: more came out than the hole holds beside the string, so pits were moved, the gain is mistyped, or the hole is already full of influx and no sheet of one bubble holds")
                .with("gain", readings.gain, Kind::Volume)
                .with("annulus", volumes.bit_to_surface(), Kind::Volume)
        }),
    ]
    .into_iter()
    .flatten()
    .collect();
    if !refusals.is_empty() {
        return Err(refusals);
    }
    let mut cautions = Vec::new();
    if readings.float == Float::Unsaid {
        cautions.push(Remark::new(
            "nobody said whether a float stands in the string: with one that was not bumped the drill pipe reads low or nought, and every figure here is too low; say --float bumped or --float none",
        ));
    }
    cautions.push(Remark::new(
        "trapped pressure: bleed a quarter to half a barrel from the annulus; the drill pipe pressure must come back to what it was (common practice). Tell how long both pressures have stood still",
    ));
    let (drill_pipe, casing) = (readings.drill_pipe_pressure, readings.casing_pressure);
    if casing < drill_pipe - GAUGE {
        cautions.push(
            Remark::new("casing pressure below drill pipe pressure: no influx in an open annulus does that. Trapped pressure, an annulus packed off above the influx, cuttings in it, influx in the string, or a gauge: find out which before circulating")
                .with("casing", casing, Kind::Pressure)
                .with("drill pipe", drill_pipe, Kind::Pressure),
        );
    }
    if drill_pipe <= GAUGE && casing > GAUGE {
        cautions.push(Remark::new(
            "no drill pipe pressure: a swabbed kick, whose influx may lie below the bit, or a float that was not bumped. The mud is heavy enough; circulate out, or strip to bottom first",
        ));
    }
    if readings.gain <= 0.0 && casing > GAUGE {
        cautions.push(Remark::new("pressure without a gain: trapped pressure, or a gain that nobody measured"));
    }
    if scene.section().managed_pressure.is_some() {
        cautions.push(Remark::new(
            "drilled with back pressure: the gauges read what was trapped of it as well; this sheet is for conventional control on the preventers, outside the matrix of managed pressure",
        ));
    }
    if scene.section().mud.kind != MudKind::Water {
        cautions.push(Remark::new(
            "oil in the mud: gas dissolves, so gain and casing pressure understate it and it comes out late and at once near surface; the course of the pressures below is not to be relied on",
        ));
    }
    Ok(cautions)
}

/// The file says that pipe is run on a float, and nobody bumped it.
fn float_unread(scene: &Scene, readings: &Readings) -> Option<Remark> {
    let in_file = scene.section().tripping.run_empty.is_some();
    match readings.float {
        Float::Unsaid if in_file => Some(Remark::new(
            "the well file runs the string on a float (`section[].tripping.run_empty`): drill pipe pressure behind a float is none until it is bumped; bump it, and say --float bumped, or --float none if it was left out",
        )),
        Float::Unsaid if readings.drill_pipe_pressure <= 0.0 && readings.casing_pressure > GAUGE => Some(Remark::new(
            "drill pipe pressure of nought with pressure on the casing: say --float none for a swabbed kick without a float, or bump the float and say --float bumped",
        )),
        _ => None,
    }
}

/// Above a working pressure either the reading or the rating is wrong, or the well is past a kill sheet.
fn above_ratings(scene: &Scene, readings: &Readings) -> Option<Remark> {
    let rig = &scene.fit().rig;
    let rated = [stack_limit(scene.fit()).map(|limit| limit.capacity), rig.wellhead_rating, rig.manifold_rating];
    let least = rated.into_iter().flatten().reduce(f64::min)?;
    let highest = readings.casing_pressure.max(readings.drill_pipe_pressure);
    (highest > least).then(|| {
        Remark::new("a shut-in pressure above the working pressure of stack, wellhead or choke manifold: a gauge or a rating is wrong, or the well is past a kill sheet")
            .with("read", highest, Kind::Pressure)
            .with("least rating", least, Kind::Pressure)
    })
}
