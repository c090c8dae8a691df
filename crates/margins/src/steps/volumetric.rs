//! Volumetric method: gas rises in a closed well that cannot be circulated; mud is let out by volume so that it may expand.

use super::gas::{Bears, Column, Standing};
use super::{Cell, GAIN, HUNDRED_PSI, MARGIN, Maker, Method, PEOPLE, Refused, SICP, SIDPP, SINGLE_BUBBLE, STEP};
use super::{NOT_A_SET_POINT, STANDARD_INVALID};
use crate::control::shut_in::shut_in;
use crate::fields::influx::with_kick;
use rigwright_physics::control::non_circulating::VolumetricBleed;
use rigwright_physics::{Kind, Off, Recorder};

/// No table is longer: by then the gas has risen or the step is far too small.
const MOST: u32 = 200;

pub(super) static METHOD: Method = Method {
    slug: "volumetric",
    title: "volumetric method",
    asks: "gas rises in a closed well and cannot be circulated out: how much mud is let out at which casing pressure, until gas is at surface",
    inputs: &[SIDPP, SICP, GAIN, MARGIN, STEP],
    cautions: &[
        SINGLE_BUBBLE,
        "where drill pipe pressure can be read, hold it instead: it tells the bottom directly",
        "mud is let out by volume into a calibrated trip tank, through a choke moved by hand, at constant casing pressure; gas is never let out by volume: stop when it is at surface",
        "losses or a leak spoil the count: pressure that does not rise says so",
        NOT_A_SET_POINT,
        STANDARD_INVALID,
        PEOPLE,
    ],
    make,
};

const COLUMNS: &[(&str, Option<Kind>)] = &[
    ("step", Some(Kind::Count)),
    ("let casing pressure rise to", Some(Kind::Pressure)),
    ("then let out", Some(Kind::Volume)),
    ("let out in all", Some(Kind::Volume)),
    ("volume of the gas", Some(Kind::Volume)),
    ("top of the gas, vertical", Some(Kind::Depth)),
    ("bottom over formation", Some(Kind::Pressure)),
    ("after letting out", Some(Kind::Pressure)),
    ("left at the weakest rock", Some(Kind::Pressure)),
];

fn make(maker: &mut Maker) -> Result<(), Refused> {
    let scene = maker.scene;
    maker.working.heading("where the well stands");
    let formation = maker.formation_pressure()?;
    let gain = maker.gain()?;
    if scene.kick_annulus().is_some_and(|annulus| gain >= annulus.volume()) {
        return Err(Refused::new("the gain is larger than the annulus", "check the gain and its unit"));
    }
    let computed = shut_in(scene, formation, gain, &mut Off).map(|shut_in| shut_in.casing_pressure.max(0.0));
    let casing = maker.value("sicp", computed)?;
    let margin = maker.value("margin", Some(HUNDRED_PSI))?;
    let step = maker.value("step", Some(HUNDRED_PSI))?;
    let gradient = maker.mud_gradient();
    let bears = Bears::new(maker);
    let climbs =
        || Refused::new("the hole climbs towards its end: gas does not stand as one bubble", "follow the manual's own way");
    let marched = with_kick(scene, formation, |well| {
        let column = Column { path: well.path, gradient };
        march(maker, column, &bears, Order { casing, gain, margin, step })
    });
    let rows = marched.ok_or_else(climbs)??;
    let (risen, last) = (rows.risen, rows.last);
    // Gauges that were both typed may tell different bottoms.
    let apart = rows.shut_in - formation;
    if apart.abs() > GAUGE {
        maker.warn("Casing gauge, gain and a bubble of gas tell another formation pressure than the drill pipe gauge: the steps hold what the casing gauge tells. The larger of the two counts.");
        maker.figure("casing side less drill pipe side", apart, Kind::Pressure);
    }
    if let Some(over) = rows.least_over.filter(|over| *over < 0.0) {
        maker.warn("In one step the bottom falls under the pressure that it had: make the step smaller or the margin larger.");
        maker.figure("lowest it falls to", over, Kind::Pressure);
    }
    maker.heading("the steps");
    maker.say("Let casing pressure rise as far as the row says without letting anything out. Then let out the volume of the row, slowly, at that casing pressure. Then the next row.");
    maker.table("volumetric steps", COLUMNS, rows.cells);
    bears.say(maker);
    if let Some((name, passed)) = rows.passed {
        maker.pass(format!("On the way the {name} is asked for more than it bears."));
        maker.figure("short by", passed, Kind::Pressure);
    }
    maker.heading("when gas is at surface");
    if risen {
        maker.say("Stop letting out by volume. Go on with lubricate and bleed, with these two figures:");
        maker.figure("casing pressure", last.casing_pressure, Kind::Pressure);
        maker.figure("volume of the gas", last.bubble.volume, Kind::Volume);
    } else {
        maker.warn("The gas is not at surface after the last row: a larger step makes a shorter table.");
    }
    Ok(())
}

struct Order {
    casing: f64,
    gain: f64,
    margin: f64,
    step: f64,
}

/// Gauges are read no better than this: 25 psi, common practice. [Pa]
const GAUGE: f64 = 0.25 * HUNDRED_PSI;

struct Rows {
    /// Pressure at the bottom that the casing gauge tells. [Pa]
    shut_in: f64,
    cells: Vec<Vec<Cell>>,
    risen: bool,
    last: Standing,
    /// Lowest overbalance after a step; against what the bottom had when shut in. [Pa]
    least_over: Option<f64>,
    /// The worst limit passed. [Pa]
    passed: Option<(&'static str, f64)>,
}

fn march(maker: &mut Maker, column: Column, bears: &Bears, order: Order) -> Result<Rows, Refused> {
    let Order { casing, gain, margin, step } = order;
    let range = || Refused::new("the gas leaves the range of its correlation", "no steps are made from these readings");
    let first = column.under(0.0, gain, casing).ok_or_else(range)?;
    let (amount, shut_in) = (first.state.amount, first.bottom_pressure);
    let mut rows = Rows { shut_in, cells: Vec::new(), risen: false, last: first, least_over: None, passed: None };
    let (mut pressure, mut volume, mut out) = (casing + margin + step, gain, 0.0);
    for number in 1..=MOST {
        let Some(before) = column.moved(amount, volume, pressure) else {
            rows.risen = true;
            break;
        };
        let place = before.bubble.below + before.bubble.volume;
        let capacity = column.capacity(place);
        if !capacity.is_finite() {
            return Err(Refused::new("the gas stands in a level part of the hole", "volume tells nothing of its height there"));
        }
        let bleed =
            VolumetricBleed { pressure_step: step, capacity, mud_weight: maker.mud_weight(), gravity: maker.scene.gravity() };
        // The first step in full; the others differ by the capacity alone.
        let each = if number == 1 {
            maker.working.heading("the first step");
            maker.working.given("volume of annulus per vertical height where the gas ends", capacity, Kind::VolumePerLength);
            maker.working.take(bleed)
        } else {
            Off.take(bleed)
        };
        volume += each;
        out += each;
        let after = column.moved(amount, volume, pressure);
        let over = |there: &Standing| there.bottom_pressure - shut_in;
        let left = bears.left(|point| column.pressure(&before, point.vertical_depth));
        for (name, left) in
            [("rock", left.map(|(left, _)| left)), ("equipment", bears.least().map(|(_, rating)| rating - pressure))]
        {
            if let Some(left) = left.filter(|left| *left < 0.0)
                && rows.passed.is_none_or(|(_, passed)| -left > passed)
            {
                rows.passed = Some((name, -left));
            }
        }
        let value = |value: Option<f64>| value.map_or(Cell::Blank, Cell::Value);
        rows.cells.push(vec![
            Cell::Value(f64::from(number)),
            Cell::Value(pressure),
            Cell::Value(each),
            Cell::Value(out),
            Cell::Value(before.bubble.volume),
            Cell::Value(column.path.annulus.vertical_depth(place)),
            Cell::Value(over(&before)),
            value(after.as_ref().map(over)),
            value(left.map(|(left, _)| left)),
        ]);
        if let Some(after) = after {
            let lowest = over(&after);
            rows.least_over = Some(rows.least_over.map_or(lowest, |least: f64| least.min(lowest)));
            rows.last = after;
        } else {
            rows.last = before;
        }
        pressure += step;
    }
    Ok(rows)
}
