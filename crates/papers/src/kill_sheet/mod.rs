//! The kill sheet as text, in the order in which it is used: what was read, what to pump, what to hold, what the well
//! bears, what to beware of. A stale sheet says so on its face.

pub(crate) mod choke_line;
mod course;

use crate::paper::Pen;
use crate::sheet::caution;
use crate::subject::as_of;
use crate::text::{Align, Span, Style, Text};
use jiff::Timestamp;
use rigwright_margins::Place;
use rigwright_margins::kill_sheet::{Held, KillSheet, Length, Remark, Shares};
use rigwright_units::{Kind, System, show, show_down, show_exact, show_number, show_up, unit};
use rigwright_well::Fit;

/// Column in which the words beside a label begin.
const HANG: usize = 26;

/// What a paper of pressure control is for, and how it is printed.
#[derive(Clone, Copy)]
pub struct Leaf<'a> {
    /// The well and the rig.
    pub fit: &'a Fit,
    /// The moment for which it is made.
    pub as_of: Timestamp,
    /// The system of units that it is printed in.
    pub units: System,
}

impl Leaf<'_> {
    pub(crate) fn show(&self, value: f64, kind: Kind) -> String {
        show(value, kind, self.units)
    }

    pub(crate) fn number(&self, value: f64, kind: Kind) -> String {
        show_number(value, kind, self.units)
    }

    pub(crate) fn up(&self, value: f64, kind: Kind) -> String {
        show_up(value, kind, self.units)
    }

    pub(crate) fn down(&self, value: f64, kind: Kind) -> String {
        show_down(value, kind, self.units)
    }

    pub(crate) fn unit(&self, kind: Kind) -> &'static str {
        unit(kind, self.units).symbol
    }

    /// "kill sheet: Ostrick 1 on Anvil 12" with the moment at the right, and what comes before everything else.
    pub(crate) fn head(&self, text: &mut Text, what: &str) {
        let name = format!("{what}: {} on {}", self.fit.well.name, self.fit.rig.name);
        let moment = format!("as of {}", as_of(self.as_of));
        let gap = crate::text::WIDTH.saturating_sub(crate::text::width(&name) + crate::text::width(&moment)).max(2);
        text.line([name.into(), " ".repeat(gap).into(), Span::new(moment, Style::Faint)]);
        text.rule();
        text.paragraph(0, Style::Strong, "If the well flows, shut in first, compute after.");
    }

    /// A label and a figure.
    pub(crate) fn told(&self, text: &mut Text, name: &str, value: &str) {
        text.hanging(HANG, name.into(), value);
    }
}

/// A remark with its figures in the reader's units.
pub fn remark(remark: &Remark, units: System) -> String {
    let figure = |figure: &rigwright_margins::Figure| format!("{} {}", figure.name, show(figure.value, figure.kind, units));
    let figures: Vec<String> = remark.figures.iter().map(figure).collect();
    if figures.is_empty() { remark.text.clone() } else { format!("{} ({})", remark.text, figures.join(", ")) }
}

/// The step in which a mud balance is read in a system of units. [kg/m³]
pub fn weight_step(units: System) -> f64 {
    let step = match units {
        System::Field => "0.1 ppg",
        System::Metric => "0.01 sg",
        System::Canadian => "10 kg/m3",
    };
    // The three texts above are quantities.
    rigwright_units::parse(step, Kind::Density).unwrap_or(10.0)
}

/// The kill sheet.
pub fn kill_sheet(leaf: &Leaf, sheet: &KillSheet) -> Text {
    let mut text = Text::default();
    leaf.head(&mut text, "kill sheet");
    for stale in &sheet.stale {
        text.hanging(8, Span::new("STALE", Style::Strong), &remark(stale, leaf.units));
    }
    ground(&mut text, leaf, sheet);
    weights(&mut text, leaf, sheet);
    volumes(&mut text, leaf, sheet);
    schedule(&mut text, leaf, sheet);
    rates(&mut text, leaf, sheet);
    course::both(&mut text, leaf, sheet);
    influx(&mut text, leaf, sheet);
    limits(&mut text, leaf, sheet);
    stock(&mut text, leaf, sheet);
    text.heading("beware");
    for caution in &sheet.cautions {
        text.hanging(2, "·".into(), &remark(caution, leaf.units));
    }
    for caution in CAUTIONS {
        text.hanging(2, "·".into(), caution);
    }
    text.blank();
    caution(&mut text);
    text
}

/// What every kill sheet carries.
pub(crate) const CAUTIONS: [&str; 5] = [
    "One bubble of gas that fills the annulus over its length: no slip, no solution, no dispersion. Real gas as warm as the \
     rock; dispersed gas comes to surface earlier than told here.",
    "MAASP is not a set point of the choke. Do not open the choke below the schedule to respect it without a decision of the \
     person in charge: a second influx follows.",
    "This sheet is not valid for H2S, shallow gas, losses with the kick, underground flow, a washed-out string, a plugged bit or \
     a bit off bottom.",
    "Bring the pump to rate with the casing pressure held; then believe the drill pipe: where it differs from the initial \
     circulating pressure, what it shows is right, and the slow rate pressure is what it shows less the shut-in drill pipe \
     pressure. Change the rate with the casing pressure held, and read anew.",
    "A planning and training aid: made or checked by a certified supervisor; the approved well-control manual and local code \
     govern.",
];

fn ground(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    let section = &leaf.fit.well.sections[sheet.order.section];
    let depth = |depth: f64| leaf.show(depth, Kind::Depth);
    let (bit, vertical) = (depth(sheet.order.hole_depth), depth(sheet.vertical_depth));
    leaf.told(
        text,
        "hole",
        &format!("{}, bit on bottom at {bit}, {vertical} vertical, below {}", section.name, leaf.fit.well.datum),
    );
    leaf.told(text, "last shoe", &depth(sheet.shoe));
    leaf.told(text, "mud in the hole", &leaf.show(sheet.mud_weight, Kind::Density));
    leaf.told(text, "constants", &format!("{}; kill weights rounded up", sheet.order.constants.name));
    let readings = &sheet.order.readings;
    leaf.told(text, "drill pipe, shut in", &leaf.show(readings.drill_pipe_pressure, Kind::Pressure));
    leaf.told(text, "casing, shut in", &leaf.show(readings.casing_pressure, Kind::Pressure));
    leaf.told(text, "pit gain", &leaf.show(readings.gain, Kind::Volume));
    text.blank();
}

fn weights(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    text.heading("weights and pressures");
    leaf.told(text, "formation pressure", &leaf.up(sheet.formation_pressure, Kind::Pressure));
    let exact = show_exact(sheet.exact_weight, Kind::Density, leaf.units);
    let overbalance = leaf.show(sheet.rounding_overbalance, Kind::Pressure);
    let kill = leaf.up(sheet.kill_weight, Kind::Density);
    leaf.told(text, "kill mud", &format!("{kill}, unrounded {exact}; the rounding leaves {overbalance} at the bottom"));
    leaf.told(text, "after the kill", &format!("{} with the trip margin", leaf.up(sheet.trip_weight, Kind::Density)));
    match (&sheet.slow, &sheet.schedule) {
        (Some(slow), Some(schedule)) => {
            let reading = &slow.reading;
            let date = reading.date.map_or_else(|| "undated".to_owned(), |date| format!("of {date}"));
            let speed = leaf.show(reading.pump_speed, Kind::StrokeRate);
            let (pressure, depth) = (leaf.show(reading.pressure, Kind::Pressure), leaf.show(reading.depth, Kind::Depth));
            leaf.told(text, "slow rate", &format!("{pressure} at {speed}, read at {depth}, {date}"));
            let initial = leaf.show(schedule.initial_pressure, Kind::Pressure);
            leaf.told(text, "initial circulating", &format!("{initial}: drill pipe pressure and slow rate pressure"));
            let last = leaf.show(schedule.final_pressure, Kind::Pressure);
            leaf.told(text, "final circulating", &format!("{last}: slow rate pressure by the weight of the kill mud"));
        }
        _ => leaf.told(text, "initial and final circulating", "unknown: no slow rate was read"),
    }
    text.blank();
}

fn length_row(leaf: &Leaf, length: &Length, before: f64) -> Vec<String> {
    vec![
        length.what.clone(),
        leaf.number(length.length, Kind::Depth),
        leaf.number(length.capacity, Kind::VolumePerLength),
        leaf.number(length.volume, Kind::Volume),
        leaf.number(length.strokes, Kind::Count),
        leaf.number(before + length.strokes, Kind::Count),
    ]
}

fn volumes(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    let volumes = &sheet.volumes;
    text.heading("volumes and strokes");
    let units = ["", leaf.unit(Kind::Depth), leaf.unit(Kind::VolumePerLength), leaf.unit(Kind::Volume), "", ""];
    let mut rows = vec![
        ["", "length", "capacity", "volume", "strokes", "in all"].map(str::to_owned).to_vec(),
        units.map(str::to_owned).to_vec(),
    ];
    let mut strokes = 0.0;
    for length in std::iter::once(&volumes.surface).chain(&volumes.string) {
        rows.push(length_row(leaf, length, strokes));
        strokes += length.strokes;
    }
    let total = |what: &str, volume: f64| {
        let strokes = leaf.number(volumes.strokes(volume), Kind::Count);
        vec![what.to_owned(), String::new(), String::new(), leaf.number(volume, Kind::Volume), strokes, String::new()]
    };
    rows.push(total("pump to bit", volumes.to_bit()));
    let mut strokes = 0.0;
    for length in &volumes.annulus {
        rows.push(length_row(leaf, length, strokes));
        strokes += length.strokes;
    }
    rows.push(total("bit to shoe", volumes.bit_to_shoe()));
    rows.push(total("bit to surface", volumes.bit_to_surface()));
    rows.push(total("one circulation", volumes.circulation()));
    let mut columns = [Align::Right; 6];
    columns[0] = Align::Left;
    text.table(2, &columns, &rows);
    leaf.told(
        text,
        "  pump output",
        &format!(
            "{} of one pump; strokes are those of all pumps together",
            leaf.show(volumes.pump_output, Kind::VolumePerStroke)
        ),
    );
    text.blank();
}

fn schedule(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    let Some(schedule) = &sheet.schedule else { return };
    text.heading("drill pipe pressure while kill mud fills the string");
    let pressure = leaf.unit(Kind::Pressure);
    let mut rows = vec![
        ["strokes", "volume", "front", "vertical", "friction", "hold", "straight", "differs", "by weight"]
            .map(str::to_owned)
            .to_vec(),
        [
            "",
            leaf.unit(Kind::Volume),
            leaf.unit(Kind::Depth),
            leaf.unit(Kind::Depth),
            "%",
            pressure,
            pressure,
            pressure,
            pressure,
        ]
        .map(str::to_owned)
        .to_vec(),
    ];
    for step in &schedule.steps {
        rows.push(vec![
            leaf.number(step.strokes, Kind::Count),
            leaf.number(step.volume, Kind::Volume),
            leaf.number(step.depth, Kind::Depth),
            leaf.number(step.vertical_depth, Kind::Depth),
            leaf.number(step.friction_share, Kind::Fraction),
            leaf.number(step.pressure, Kind::Pressure),
            leaf.number(step.straight, Kind::Pressure),
            leaf.number(step.straight - step.pressure, Kind::Pressure),
            leaf.number(step.by_weight, Kind::Pressure),
        ]);
    }
    text.table(2, &[Align::Right; 9], &rows);
    let model = match schedule.shares {
        Shares::Model => "by the pressure-loss model, part by part; the nozzles' share falls due in the last row, behind the bit",
        Shares::Depth => "by measured depth",
    };
    text.paragraph(
        2,
        Style::Plain,
        &format!("Hold the column \"hold\". Friction is shared {model}. Then hold the final circulating pressure."),
    );
    let per_hundred = leaf.show(schedule.per_hundred, Kind::Pressure);
    text.paragraph(2, Style::Plain, &format!("The straight line of the training sheet falls by {per_hundred} for 100 strokes."));
    if let Some(furthest) = schedule.furthest() {
        let off = furthest.straight - furthest.pressure;
        let size = leaf.show(off.abs(), Kind::Pressure);
        let where_to = leaf.show(furthest.depth, Kind::Depth);
        let words = if off >= 0.0 {
            format!(
                "Furthest off it stands {size} too high, with kill mud at {where_to}: it books weight and friction later than they come, and loads the weak point by that much."
            )
        } else {
            format!(
                "Furthest off it stands {size} too low, with kill mud at {where_to}: it books weight or friction before they come, and leaves the bottom short by that much."
            )
        };
        text.paragraph(2, Style::Plain, &words);
    }
    text.paragraph(
        2,
        Style::Plain,
        "\"by weight\" holds formation pressure without what the rounding of the kill mud adds; it does not meet the final circulating pressure, and the training sheet goes to it by a line of its own.",
    );
    text.blank();
}

fn choke_line(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    let rows = choke_line::rows(&Pen { units: leaf.units, beside: None }, sheet);
    if rows.is_empty() {
        return;
    }
    text.heading(choke_line::CHOKE_LINE);
    rows.iter().for_each(|(name, words)| leaf.told(text, name, words));
    text.blank();
}

fn rates(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    let pressure = leaf.unit(Kind::Pressure);
    choke_line(text, leaf, sheet);
    if !sheet.start_up.is_empty() {
        text.heading("bringing the pump to rate");
        let mut rows = vec![
            ["pump speed", "hold at the choke", "drill pipe should show"].map(str::to_owned).to_vec(),
            [leaf.unit(Kind::StrokeRate), pressure, pressure].map(str::to_owned).to_vec(),
        ];
        for step in &sheet.start_up {
            rows.push(vec![
                leaf.number(step.pump_speed, Kind::StrokeRate),
                leaf.number(step.choke, Kind::Pressure),
                leaf.number(step.drill_pipe, Kind::Pressure),
            ]);
        }
        text.table(2, &[Align::Right; 3], &rows);
        text.blank();
    }
    if sheet.rates.len() < 2 {
        return;
    }
    text.heading("other rates and pumps, for a change in mid-kill");
    let mut rows = vec![
        ["", "pump", "speed", "to the bit", "slow rate", "initial", "final", "one circulation"].map(str::to_owned).to_vec(),
        ["", "", leaf.unit(Kind::StrokeRate), "strokes", pressure, pressure, pressure, ""].map(str::to_owned).to_vec(),
    ];
    for rate in &sheet.rates {
        rows.push(vec![
            if rate.read { format!("read at {}", leaf.show(rate.depth, Kind::Depth)) } else { "by the model".to_owned() },
            rate.pump.map_or_else(|| "—".to_owned(), |pump| pump.to_string()),
            leaf.number(rate.pump_speed, Kind::StrokeRate),
            leaf.number(rate.to_bit, Kind::Count),
            leaf.number(rate.slow_pressure, Kind::Pressure),
            leaf.number(rate.initial_pressure, Kind::Pressure),
            leaf.number(rate.final_pressure, Kind::Pressure),
            leaf.show(rate.circulation, Kind::Time),
        ]);
    }
    let mut columns = [Align::Right; 8];
    columns[0] = Align::Left;
    text.table(2, &columns, &rows);
    text.paragraph(
        2,
        Style::Plain,
        "Change rate or pump with the casing pressure held, and take what the drill pipe then shows: between initial and final pressure the new schedule lies where the old one does.",
    );
    text.blank();
}

fn influx(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    let influx = &sheet.influx;
    text.heading("what came in");
    let source = if influx.error_stated { "as stated" } else { "10 % taken, common practice" };
    let (volume, error) = (leaf.show(influx.volume, Kind::Volume), leaf.show(influx.error, Kind::Volume));
    leaf.told(text, "gain", &format!("{volume}, give or take {error} ({source})"));
    let (length, height) = (leaf.show(influx.length, Kind::Depth), leaf.show(influx.height, Kind::Depth));
    leaf.told(text, "stands", &format!("{length} along the hole, {height} vertical"));
    match (influx.density, influx.interval) {
        (Some(density), Some([low, high])) => {
            let show = |density: f64| leaf.show(density, Kind::Density);
            let words = format!("{}, between {} and {}", show(density), show(low), show(high));
            leaf.told(text, "density", &words);
        }
        _ => leaf.told(text, "density", "unknown: no gain to tell it by"),
    }
    let kinds: Vec<&str> = influx.kinds.iter().map(|kind| kind.word()).collect();
    let kinds = if kinds.is_empty() { "the readings do not tell".to_owned() } else { kinds.join(", or ") };
    leaf.told(text, "may be", &format!("{kinds}; treat it as gas"));
    leaf.told(
        text,
        "rises, shut in",
        &format!("about {}, by mud weight alone: a screening figure", leaf.show(influx.migration, Kind::Speed)),
    );
    text.blank();
}

fn limit_row(leaf: &Leaf, held: &Held) -> Vec<String> {
    let unknown = || "unknown".to_owned();
    let asked = |value: Option<f64>| value.map_or_else(|| "—".to_owned(), |value| leaf.up(value, Kind::Pressure));
    let place = match held.place {
        Place::Surface => "surface".to_owned(),
        Place::Depth(depth) => leaf.show(depth, Kind::Depth),
    };
    vec![
        crate::text::cut(&held.name, 34),
        place,
        held.capacity.map_or_else(unknown, |capacity| leaf.down(capacity, Kind::Pressure)),
        asked(held.shut_in),
        asked(held.driller),
        asked(held.weighted),
        held.left().map_or_else(unknown, |left| leaf.down(left, Kind::Pressure)),
    ]
}

fn limits(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    text.heading("limits, each by its name");
    let head = ["", "at", "bears", "now", "driller's", "wait, weight", "left"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    rows.extend(sheet.limits.iter().map(|held| limit_row(leaf, held)));
    let mut columns = [Align::Right; 7];
    columns[0] = Align::Left;
    text.table(2, &columns, &rows);
    let known = sheet.limits.iter().filter(|held| held.left().is_some());
    if let Some(least) = known.min_by(|a, b| a.left().unwrap_or(0.0).total_cmp(&b.left().unwrap_or(0.0))) {
        let left = leaf.down(least.left().unwrap_or(0.0), Kind::Pressure);
        text.paragraph(2, Style::Plain, &format!("Governs: {}, with {left} left.", least.name));
    }
    for held in sheet.limits.iter().filter(|held| held.capacity.is_none()) {
        text.paragraph(2, Style::Plain, &format!("Unknown, not without end: {}, for want of {}.", held.name, held.source));
    }
    if let Some(swap) = &sheet.swap {
        let strokes = leaf.number(sheet.volumes.strokes(swap.pumped), Kind::Count);
        let mut words = String::new();
        if let Some(maasp) = swap.maasp {
            words.push_str(&format!("MAASP by the shoe test is {}, still", leaf.down(maasp, Kind::Pressure)));
            if let Some(friction) = swap.friction {
                words.push_str(&format!(", and {} while pumping", leaf.down(maasp - friction, Kind::Pressure)));
            }
            words.push_str(". ");
        }
        words.push_str(&format!(
            "It ceases to govern once all gas is above the shoe, after {strokes} strokes by driller's method"
        ));
        if let Some(surface) = swap.surface {
            words.push_str(&format!(
                "; from then on casing and ratings do, the least of them {}",
                leaf.down(surface, Kind::Pressure)
            ));
        }
        words.push('.');
        text.paragraph(2, Style::Plain, &words);
    }
    text.blank();
}

fn stock(text: &mut Text, leaf: &Leaf, sheet: &KillSheet) {
    let stock = &sheet.stock;
    text.heading("barite, room, time");
    let whose = if stock.with_pits { "hole, string and active pits" } else { "hole and string" };
    let mud = leaf.up(stock.mud, Kind::Volume);
    let on_site = stock
        .barite_on_site
        .map_or_else(|| "unknown on site".to_owned(), |mass| format!("{} on site", leaf.down(mass, Kind::Mass)));
    leaf.told(text, "barite", &format!("{} for {mud} of {whose}; {on_site}", leaf.up(stock.barite, Kind::Mass)));
    let there =
        stock.room_on_site.map_or_else(|| "unknown room".to_owned(), |room| format!("{} there", leaf.down(room, Kind::Volume)));
    if let Some(mixing) = stock.mixing {
        leaf.told(text, "to mix it in", &leaf.show(mixing, Kind::Time));
    }
    let (growth, room) = (leaf.up(stock.growth, Kind::Volume), leaf.up(stock.room(), Kind::Volume));
    leaf.told(
        text,
        "room in the pits",
        &format!("{room} wanted on top of what they hold: {growth} by barite, the rest by gas; {there}"),
    );
    let time = |time: Option<f64>| time.map_or_else(|| "unknown".to_owned(), |time| leaf.show(time, Kind::Time));
    leaf.told(text, "pump to bit", &time(stock.to_bit));
    leaf.told(text, "bit to surface", &time(stock.bottoms_up));
    leaf.told(text, "driller's method", &format!("{} of pumping", time(stock.driller)));
    leaf.told(text, "wait and weight", &format!("{} of pumping, after the time to weight up", time(stock.weighted)));
    text.blank();
}
