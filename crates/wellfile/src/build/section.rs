//! Hole sections with mud, string and casing.

use super::{
    Assumed, LINER_ROUNDING, assume, casing_drift, casing_inside, like, mud_report, part_inside, sea_bed, to_sea_bed, yes,
};
use crate::sheet::At;
use rigwright_physics::tubular::yield_strength;
use rigwright_units::{Kind, System, show_exact};
use rigwright_well::{
    Casing, CementWait, Cleaning, Drilling, HookLoadReading, Joint, LeakOff, Lie, Liner, LossMethod, ManagedPressure, Model,
    Motion, Mud, Part, PartKind, Reading, ReturnTo, Rheogram, Rig, Section, ShallowGas, SlowRate, Slug, Tripping, WearClass,
};

pub(super) fn sections(well: &At<'_>, rig: &Rig, assumed: &mut Vec<Assumed>) -> Option<Vec<Section>> {
    let rows = well.list("section");
    let mut sections: Vec<Section> = Vec::with_capacity(rows.len());
    let mut top = sea_bed(well).unwrap_or(0.0);
    for at in &rows {
        let bottom = at.number("bottom")?;
        let string = string(at, &sections, assumed)?;
        sections.push(Section {
            name: at.text("name")?.to_owned(),
            top,
            bottom,
            hole_diameter: at.number("hole")?,
            washout: at.number("washout")?,
            returns: if to_sea_bed(at) { ReturnTo::SeaBed } else { ReturnTo::Surface },
            mud: mud(&at.table("mud")?, assumed)?.into(),
            string: string.into(),
            drilling: drilling(&at.table("drilling")?, rig)?.into(),
            tripping: tripping(&at.table("tripping")?)?.into(),
            cleaning: cleaning(&at.table("cleaning")?)?.into(),
            lie: {
                let annulus = at.table("annulus")?;
                Lie { standoff: annulus.number("standoff")?, rotation_factor: annulus.number("rotation_factor")? }
            },
            candidate_muds: at.list("candidate_mud").iter().map(mud_report::candidate).collect::<Option<Vec<_>>>()?.into(),
            progress: at.list("progress").iter().map(mud_report::progress).collect::<Option<_>>()?,
            sticking: mud_report::sticking(&at.table("sticking")?)?.into(),
            managed_pressure: match at.table("managed_pressure") {
                Some(at) => Some(managed_pressure(&at)?),
                None => None,
            },
            shallow_gas: at
                .table("shallow_gas")
                .map(|at| ShallowGas { rate: at.number("rate"), conductor: at.number("conductor") }),
            hook_loads: at.list("hook_load").iter().map(hook_load).collect::<Option<_>>()?,
            slow_rates: at.list("slow_rate").iter().map(slow_rate).collect::<Option<_>>()?,
            casing: match at.table("casing") {
                Some(at) => Some(casing(&at, sea_bed(well), assumed)?),
                None => None,
            }
            .into(),
        });
        top = bottom;
    }
    Some(sections)
}

fn managed_pressure(at: &At<'_>) -> Option<ManagedPressure> {
    Some(ManagedPressure {
        flowing: at.number("flowing")?,
        still: at.number("still")?,
        anchor: at.number("anchor"),
        pressure_limit: at.number("pressure_limit"),
        influx_operating: at.number("influx_operating"),
        influx_planned: at.number("influx_planned"),
        leak_rate: at.number("leak_rate"),
        run_down: at.number("run_down"),
        response_time: at.number("response_time"),
    })
}

/// Compressibility of water and of oil, from memory. [1/Pa]
const GIVES_WAY: [f64; 2] = [3e-6 / PSI, 5e-6 / PSI];
const PSI: f64 = 6_894.757_293_168_361;

fn mud(at: &At<'_>, assumed: &mut Vec<Assumed>) -> Option<Mud> {
    let [water, oil] = GIVES_WAY;
    let compressibility = at.number("compressibility").unwrap_or_else(|| {
        let value = if at.text("kind") == Some("water-based") { water } else { oil };
        assume(assumed, at, "compressibility", show_exact(value, Kind::Compressibility, System::Field));
        value
    });
    let readings = at.pairs("readings")?.iter().map(|pair| Reading { speed_rpm: pair.key, dial: pair.value });
    Some(Mud {
        kind: mud_report::kind(at)?,
        weight: at.number("weight")?,
        rheogram: Rheogram { readings: readings.collect(), temperature: at.number("temperature"), date: at.day("date") },
        other_rheograms: other_rheograms(at)?,
        model: match at.text("model")? {
            "bingham" => Model::Bingham,
            "power-law" => Model::PowerLaw,
            "power-law-in-two" => Model::PowerLawInTwo,
            "herschel-bulkley" => Model::HerschelBulkley,
            "casson" => Model::Casson,
            "best-fit" => Model::BestFit,
            _ => return None,
        },
        losses: match at.text("losses")? {
            "generalised" => LossMethod::Generalised,
            "exact" => LossMethod::Exact,
            "power-law-1995" => LossMethod::PowerLaw1995,
            "bingham-field" => LossMethod::BinghamField,
            _ => return None,
        },
        roughness: at.number("roughness").unwrap_or(0.0),
        weighed_at: at.number("weighed_at")?,
        specific_heat: at.number("specific_heat"),
        conductivity: at.number("conductivity")?,
        temperature_limit: at.number("temperature_limit"),
        gels: at.ends("gels"),
        compressibility,
        price: at.number("price"),
        retort: mud_report::retort(at)?,
        filtrate: mud_report::filtrate(at),
    })
}

/// Readings at other temperatures, coldest first.
fn other_rheograms(at: &At<'_>) -> Option<Vec<Rheogram>> {
    let rheogram = |at: &At<'_>| {
        let readings = at.pairs("readings")?.iter().map(|pair| Reading { speed_rpm: pair.key, dial: pair.value });
        Some(Rheogram { readings: readings.collect(), temperature: Some(at.number("temperature")?), date: None })
    };
    let mut all = at.list("more_readings").iter().map(rheogram).collect::<Option<Vec<_>>>()?;
    all.sort_by(|a, b| a.temperature.unwrap_or_default().total_cmp(&b.temperature.unwrap_or_default()));
    Some(all)
}

fn drilling(at: &At<'_>, rig: &Rig) -> Option<Drilling> {
    Some(Drilling {
        flow_rate: at.number("flow")?,
        booster: at.number("booster").unwrap_or(0.0),
        inlet_temperature: at.number("inlet_temperature"),
        rotary_speed: at.number("rotary_speed")?,
        weight_on_bit: at.number("weight_on_bit")?,
        penetration_rate: at.number("penetration_rate")?,
        bit_torque: at.number("bit_torque")?,
        pumps_on: usize::try_from(at.whole("pumps")?).ok()?,
        liner: liner(rig, at.number("liner")?)?,
        connection_time: at.number("connection_time")?,
        off_bottom: at.number("off_bottom")?,
        off_bottom_speed: at.number("off_bottom_speed")?,
        bits: at.whole("bits")?,
        reamed: at.whole("reamed")?,
        reaming_speed: at.number("reaming_speed")?,
        cored: at.number("cored")?,
    })
}

/// The rig's own figure of the liner that is meant, so that the two agree to the last digit.
fn liner(rig: &Rig, diameter: f64) -> Option<f64> {
    let apart = |liner: &Liner| (liner.diameter - diameter).abs();
    let near = rig.pump.liners.iter().min_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    (apart(near) <= LINER_ROUNDING).then_some(near.diameter)
}

fn tripping(at: &At<'_>) -> Option<Tripping> {
    Some(Tripping {
        pulling_speed: at.number("pulling_speed")?,
        running_speed: at.number("running_speed")?,
        connection_time: at.number("connection_time")?,
        short_trips: at.whole("short_trips")?,
        run_empty: at.number("run_empty"),
        slug: at.table("slug").and_then(|slug| Some(Slug { volume: slug.number("volume")?, weight: slug.number("weight")? })),
    })
}

fn cleaning(at: &At<'_>) -> Option<Cleaning> {
    Some(Cleaning {
        cutting_size: at.number("cutting_size")?,
        cutting_density: at.number("cutting_density")?,
        transport_ratio: at.number("transport_ratio")?,
        cuttings_limit: at.number("cuttings_limit")?,
        most_velocity: at.number("most_velocity"),
        sample_interval: at.number("sample_interval"),
    })
}

fn hook_load(at: &At<'_>) -> Option<HookLoadReading> {
    Some(HookLoadReading {
        depth: at.number("depth")?,
        motion: match at.text("motion")? {
            "pulling-out" => Motion::Up,
            "running-in" => Motion::Down,
            _ => return None,
        },
        load: at.number("load")?,
        corrected: at.text("reading")? == "corrected",
        date: at.day("date"),
    })
}

fn slow_rate(at: &At<'_>) -> Option<SlowRate> {
    Some(SlowRate {
        pump_speed: at.number("pump_speed")?,
        pressure: at.number("pressure")?,
        choke_line_loss: at.number("choke_line_loss"),
        weight: at.number("weight")?,
        depth: at.number("depth")?,
        pump: at.whole("pump"),
        liner: at.number("liner"),
        date: at.day("date"),
    })
}

fn casing(at: &At<'_>, sea_bed: Option<f64>, assumed: &mut Vec<Assumed>) -> Option<Casing> {
    let (inner_diameter, drift) = (casing_inside(at)?, casing_drift(at)?);
    for (key, value) in [("inside", inner_diameter), ("drift", drift)] {
        if !at.given(key) {
            assume(assumed, at, key, like(value, Kind::Diameter, at.written("outside")));
        }
    }
    let top = at.number("top").unwrap_or(sea_bed.unwrap_or(0.0));
    if !at.given("top") {
        assume(assumed, at, "top", like(top, Kind::Depth, at.written("shoe")));
    }
    let leak_off = at.number("leak_off").map(|weight| LeakOff {
        weight,
        measured: at.given("leak_off_date"),
        integrity_only: at.text("leak_off_kind") == Some("integrity"),
        date: at.day("leak_off_date"),
    });
    let grade = at.text("grade")?;
    Some(Casing {
        name: at.text("name")?.to_owned(),
        top,
        shoe: at.number("shoe")?,
        outer_diameter: at.number("outside")?,
        inner_diameter,
        drift,
        linear_mass: at.number("weight")?,
        grade: grade.to_owned(),
        yield_strength: at.number("yield").or_else(|| yield_strength(grade))?,
        coupling_diameter: at.number("coupling"),
        connection_tension: at.number("connection_tension"),
        connection_burst: at.number("connection_burst"),
        make_up_torque: at.number("make_up"),
        test_pressure: at.number("test_pressure"),
        cement_weight: at.number("cement_weight"),
        cement_rate: at.number("cement_rate"),
        bump_pressure: at.number("bump_pressure"),
        cement_top: at.number("cement_top"),
        cement_wait: CementWait {
            strengths: at
                .pairs("cement_strength")
                .map_or_else(Vec::new, |pairs| pairs.iter().map(|at| (at.key, at.value)).collect()),
            drill_out: at.number("wait_to_drill_out"),
            nipple_down: at.number("wait_to_nipple_down"),
            test: at.number("wait_to_test"),
            drill_out_strength: at.number("drill_out_strength")?,
            nipple_down_strength: at.number("nipple_down_strength")?,
            test_strength: at.number("test_strength"),
        },
        hot_yield: at.number("hot_yield")?,
        empty_to: at.number("empty_to"),
        burst_fraction: at.number("burst_fraction"),
        sour: yes(at, "sour"),
        leak_off,
        floated: at.number("floated")?,
        lines: at.whole("lines"),
        running_speed: at.number("running_speed")?,
        joint_length: at.number("joint_length")?,
        joint_time: at.number("joint_time")?,
        flat_time: at.number("flat_time")?,
    })
}

/// The string of a section: its own parts, or those of a section above with another bit.
fn string(at: &At<'_>, above: &[Section], assumed: &mut Vec<Assumed>) -> Option<Vec<Part>> {
    let mut parts = match at.text("string") {
        Some(name) => above.iter().find(|section| section.name == name)?.string.to_vec(),
        None => {
            let rows = at.list("string");
            let last = rows.len().checked_sub(1)?;
            rows.iter().enumerate().map(|(index, row)| part(row, index == last, assumed)).collect::<Option<Vec<_>>>()?
        }
    };
    if let Some(row) = at.table("bit") {
        *parts.first_mut()? = bit(&row, "bit")?;
    }
    Some(parts)
}

pub(crate) fn part_kind(word: &str) -> Option<PartKind> {
    Some(match word {
        "bit" => PartKind::Bit,
        "motor" => PartKind::Motor,
        "tool" => PartKind::Tool,
        "stabiliser" => PartKind::Stabiliser,
        "collar" => PartKind::Collar,
        "heavy-weight" => PartKind::HeavyWeight,
        "drill-pipe" => PartKind::DrillPipe,
        _ => return None,
    })
}

fn bit(at: &At<'_>, name: &str) -> Option<Part> {
    let nozzles = at.nozzles("nozzles");
    Some(Part {
        kind: PartKind::Bit,
        name: at.text("name").unwrap_or(name).to_owned(),
        length: at.number("length")?,
        outer_diameter: at.number("diameter")?,
        inner_diameter: 0.0,
        linear_mass: at.number("weight")?,
        joint: None,
        yield_strength: None,
        class: WearClass::New,
        nozzles: nozzles.map(|(number, _)| number),
        flow_area: nozzles.map(|(_, area)| area).or_else(|| at.number("flow_area")),
        tool_loss: None,
        tool_flow: None,
        tool_weight: None,
        flow_least: None,
        flow_most: None,
        temperature_limit: None,
        connection: None,
        trigger_up: None,
        trigger_down: None,
        joint_length: at.number("length")?,
    })
}

fn part(at: &At<'_>, last: bool, assumed: &mut Vec<Assumed>) -> Option<Part> {
    let word = at.text("part")?;
    let kind = part_kind(word)?;
    if kind == PartKind::Bit {
        return bit(at, word);
    }
    let class = match at.text("class") {
        Some("new") => WearClass::New,
        Some("premium") => WearClass::Premium,
        Some("class-2") => WearClass::Class2,
        _ if kind == PartKind::DrillPipe => {
            assume(assumed, at, "class", "premium".to_owned());
            WearClass::Premium
        }
        _ => WearClass::New,
    };
    let inner_diameter = part_inside(at)?;
    if !at.given("inside") {
        assume(assumed, at, "inside", like(inner_diameter, Kind::Diameter, at.written("outside")));
    }
    // The connection of a collar is as wide as the collar.
    let collar = (kind == PartKind::Collar && at.given("make_up")).then(|| at.number("outside")).flatten();
    let joint = at.number("joint_outside").or(collar).map(|outer_diameter| {
        if !at.given("joint_inside") {
            assume(assumed, at, "joint_inside", like(inner_diameter, Kind::Diameter, at.written("outside")));
        }
        Joint {
            outer_diameter,
            inner_diameter: at.number("joint_inside").unwrap_or(inner_diameter),
            length: tool_joint(at, kind, assumed),
            make_up_torque: at.number("make_up"),
        }
    });
    Some(Part {
        kind,
        name: at.text("name").unwrap_or(word).to_owned(),
        length: if last { f64::INFINITY } else { at.number("length")? },
        outer_diameter: at.number("outside")?,
        inner_diameter,
        linear_mass: at.number("weight")?,
        joint,
        yield_strength: at.number("yield").or_else(|| yield_strength(at.text("grade")?)),
        class,
        nozzles: None,
        flow_area: None,
        connection: at.text("connection").map(str::to_owned),
        tool_loss: at.number("tool_loss"),
        tool_flow: at.number("tool_flow"),
        tool_weight: at.number("tool_weight"),
        flow_least: at.number("flow_least"),
        flow_most: at.number("flow_most"),
        temperature_limit: at.number("temperature_limit"),
        trigger_up: at.number("trigger_up"),
        trigger_down: at.number("trigger_down"),
        joint_length: at.number("joint_length")?,
    })
}

/// Length of a tool joint: as given, else the usual one. [m]
fn tool_joint(at: &At<'_>, kind: PartKind, assumed: &mut Vec<Assumed>) -> f64 {
    const INCH: f64 = 0.0254;
    at.number("tool_joint").unwrap_or_else(|| {
        let length = if kind == PartKind::HeavyWeight { 48.0 } else { 17.0 } * INCH;
        if at.given("joint_outside") {
            assume(assumed, at, "tool_joint", like(length, Kind::Diameter, at.written("joint_outside")));
        }
        length
    })
}
