//! A kick with the bit off bottom: what a kill from where the bit is can do, and what it cannot.

use super::gas::Bears;
use super::{Cell, GAIN, Input, Maker, Method, NOT_A_SET_POINT, PEOPLE, Refused, SICP, STANDARD_INVALID};
use rigwright_physics::circulating::column::EquivalentMudWeight;
use rigwright_physics::control::kill::KillMudWeight;
use rigwright_physics::{Formula, Kind, Range, Recorder};

/// Depths that are looked at between the bit and the bottom.
const PARTS: u32 = 8;
/// Gauges are read no better than this: 25 psi, common practice. [Pa]
const GAUGE: f64 = 172_368.932_329_209_03;

pub(super) static METHOD: Method = Method {
    slug: "off-bottom",
    title: "kick with the bit off bottom",
    asks: "the well flows on a trip: which mud would hold it from where the bit is, what the weakest rock says to that, and what is done in which order",
    inputs: &[
        Input {
            key: "sidpp",
            kind: Kind::Pressure,
            meaning: "shut-in drill pipe pressure, float bumped",
            otherwise: None,
            must: Range::NON_NEGATIVE,
        },
        Input { otherwise: None, ..SICP },
        GAIN,
    ],
    cautions: &[
        "with the influx under the bit both gauges read the same, and neither tells the formation pressure: mud under the bit is supposed where the table has to suppose something",
        "kill mud from off bottom is for the time it takes to get back; the right weight is found on bottom",
        NOT_A_SET_POINT,
        STANDARD_INVALID,
        PEOPLE,
    ],
    make,
};

const COLUMNS: &[(&str, Option<Kind>)] = &[
    ("bit at", Some(Kind::Depth)),
    ("vertical", Some(Kind::Depth)),
    ("mud that holds from there", Some(Kind::Density)),
    ("weakest rock then feels", Some(Kind::Density)),
    ("left there", Some(Kind::Pressure)),
];

fn make(maker: &mut Maker) -> Result<(), Refused> {
    let scene = maker.scene;
    let situation = scene.situation;
    if situation.hole_depth - situation.bit_depth < 1.0 {
        return Err(Refused::new("the bit is on bottom", "say where it is with --bit; on bottom a kill sheet does the work"));
    }
    maker.working.heading("where the well stands");
    let drill_pipe_pressure = maker.value("sidpp", None)?;
    let casing = maker.value("sicp", None)?;
    let gain = maker.gain()?;
    if casing + GAUGE < drill_pipe_pressure {
        return Err(Refused::new(
            "casing pressure is below drill pipe pressure: the influx would be heavier than the mud",
            "read both again; a plugged annulus, trapped pressure or a float that was not bumped does this",
        ));
    }
    let bears = Bears::new(maker);
    let (mud_weight, gravity) = (maker.mud_weight(), scene.gravity());
    maker.heading("what the gauges tell");
    let same = casing - drill_pipe_pressure <= GAUGE;
    if same {
        maker.warn("Both gauges read the same: the influx is most likely under the bit. They tell nothing of its kind, and the pressure of the formation stays unknown until the string is through it.");
    } else {
        maker.say("Casing pressure is the higher: influx stands beside the string, above the bit.");
    }
    let mut rows = Vec::new();
    let mut worst = f64::INFINITY;
    for part in 0..=PARTS {
        let share = f64::from(part) / f64::from(PARTS);
        let depth = situation.bit_depth + (situation.hole_depth - situation.bit_depth) * share;
        let vertical_depth = scene.vertical_depth(depth);
        if vertical_depth <= 0.0 {
            continue;
        }
        let kill = KillMudWeight { mud_weight, drill_pipe_pressure, vertical_depth, gravity };
        let weight = if part == 0 || part == PARTS {
            maker.working.heading(if part == 0 { "from where the bit is" } else { "from the bottom" });
            maker.working.take(kill)
        } else {
            kill.value()
        };
        // Kill mud down to the bit, mud of the hole below.
        let pressure =
            |depth: f64| gravity * (weight * depth.min(vertical_depth) + mud_weight * (depth - vertical_depth).max(0.0));
        let weakest = bears.rock.iter().filter_map(|point| {
            let felt = pressure(point.vertical_depth);
            Some((point.fracture? - felt, felt, point))
        });
        let weakest = weakest.min_by(|a, b| a.0.total_cmp(&b.0));
        let value = |value: Option<f64>| value.map_or(Cell::Blank, Cell::Value);
        let felt = weakest
            .map(|(_, pressure, point)| EquivalentMudWeight { pressure, vertical_depth: point.vertical_depth, gravity }.value());
        if part == 0 {
            worst = weakest.map_or(worst, |(left, ..)| left);
        }
        rows.push(vec![
            Cell::Value(depth),
            Cell::Value(vertical_depth),
            Cell::Value(weight),
            value(felt),
            value(weakest.map(|(left, ..)| left)),
        ]);
    }
    maker.heading("mud that holds the well from a depth of the bit");
    maker.table("the deeper, the lighter", COLUMNS, rows);
    if worst < 0.0 {
        maker.pass("Kill mud from where the bit is now breaks the weakest rock, still, before any friction: strip in first.");
        maker.figure("short by", -worst, Kind::Pressure);
    }
    bears.say(maker);
    maker.heading("in which order");
    maker.say("1. Stay shut in. Safety valve and inside preventer in the string; read both gauges until they are steady, then once more.");
    maker.say(if same {
        "2. Strip back to bottom (`steps WELL strip`), volumetric steps on top while gas rises: under the bit it cannot be circulated out."
    } else {
        "2. Circulate out what stands above the bit at constant drill pipe pressure, then strip back to bottom (`steps WELL strip`)."
    });
    maker.say("3. Where stripping is not possible: volumetric steps (`steps WELL volumetric`), or bullheading within its limits (`steps WELL bullhead`).");
    maker.say("4. On bottom: read drill pipe pressure anew, make a kill sheet, circulate the influx out.");
    maker.figure("left to strip", situation.hole_depth - situation.bit_depth, Kind::Depth);
    let stands = (situation.hole_depth - situation.bit_depth) / scene.fit().rig.mast.stand;
    maker.figure("stands", stands.ceil(), Kind::Count);
    maker.figure("gain so far", gain, Kind::Volume);
    Ok(())
}
