//! The one writer of SVG. Every element bears a class, and one style sheet in the file gives the classes their look:
//! the Okabe-Ito colours (M. Okabe and K. Ito, "Color universal design", 2008), thin rules, light or dark as the
//! reader's screen. A page may leave the sheet out and bring its own.

use super::scale::Scale;
use super::{Figure, Role};
use std::fmt::Write as _;

const WIDE: f64 = 720.0;
const HIGH: f64 = 960.0;
const LEFT: f64 = 84.0;
const RIGHT: f64 = 20.0;
const TOP: f64 = 120.0;
const BOTTOM: f64 = 108.0;

const STYLE: &str = "\
.sheet{fill:#fff}text{font:13px system-ui,sans-serif;fill:#222}.title{font-size:18px;font-weight:600}.note{fill:#555}\
.grid{stroke:#ddd;stroke-width:.6}.frame{fill:none;stroke:#222;stroke-width:1}.mark{stroke:#555;stroke-width:.8;stroke-dasharray:2 3}\
.mark-label{font-size:11px;fill:#555}.across{text-anchor:middle}.down{text-anchor:end}.band{fill:#0072b2;fill-opacity:.08}\
.series{fill:none;stroke-width:2;stroke-linejoin:round}\
.lower-limit{stroke:#d55e00}.upper-limit{stroke:#0072b2}.still{stroke:#009e73}\
.flowing{stroke:#cc79a7;stroke-dasharray:9 4}.pulling{stroke:#e69f00;stroke-dasharray:3 3}.running{stroke:#56b4e9;stroke-dasharray:9 3 2 3}\
.circulating{stroke:#cc79a7;stroke-dasharray:2 3}.running-casing{stroke:#56b4e9;stroke-width:3}.shut-in{stroke:#999999;stroke-dasharray:12 3}\
@media(prefers-color-scheme:dark){.sheet{fill:#14171a}text{fill:#e6e6e6}.note,.mark-label{fill:#aaa}.grid{stroke:#333}\
.frame{stroke:#ccc}.mark{stroke:#999}}";

/// Black on white, each role told by its stroke alone: what a photocopy keeps.
const PAPER: &str = "\
.sheet{fill:#fff}text{font-family:'Open Sans';font-size:13px;fill:#000}.title{font-size:18px;font-weight:600}.note{fill:#000}\
.grid{stroke:#bbb;stroke-width:.5}.frame{fill:none;stroke:#000;stroke-width:1}.mark{stroke:#000;stroke-width:.6;stroke-dasharray:1 3}\
.mark-label{font-size:11px}.across{text-anchor:middle}.down{text-anchor:end}.band{fill:#000;fill-opacity:.05}\
.series{fill:none;stroke:#000;stroke-width:1.6;stroke-linejoin:round}\
.lower-limit{stroke-width:3}.upper-limit{stroke-width:3;stroke-dasharray:14 3}.still{stroke-width:1.2}\
.flowing{stroke-dasharray:9 4}.pulling{stroke-dasharray:2 3}.running{stroke-dasharray:9 3 2 3}\
.circulating{stroke-dasharray:5 2}.running-casing{stroke-dasharray:9 3 2 3 2 3}.shut-in{stroke-dasharray:16 6}";

/// The figure as an SVG document.
pub fn svg(figure: &Figure) -> String {
    drawn(figure, None)
}

/// The figure as an SVG document for paper.
pub fn svg_on_paper(figure: &Figure) -> String {
    drawn(figure, None).replacen(STYLE, PAPER, 1)
}

/// The figure as an element of a page that brings its own style. `id` sets its names apart from those of other figures
/// of that page. The edges and ends of the two scales stand as `data-` words, for a cross-hair.
pub fn svg_in_page(figure: &Figure, id: &str) -> String {
    drawn(figure, Some(id))
}

fn drawn(figure: &Figure, page: Option<&str>) -> String {
    let mut out = String::new();
    write(&mut out, figure, page).unwrap_or_else(|_| unreachable!("a string takes every write"));
    out
}

fn write(out: &mut String, figure: &Figure, page: Option<&str>) -> std::fmt::Result {
    let points = || figure.series.iter().flat_map(|series| series.runs.iter().flatten());
    let edges = || figure.bands.iter().flat_map(|band| band.left.iter().chain(&band.right));
    let across = Scale::around(points().chain(edges()).map(|point| point.0), LEFT, WIDE - RIGHT);
    let depths = points().chain(edges()).map(|point| point.1).chain(figure.marks.iter().map(|mark| mark.depth));
    let down = Scale::around(depths.chain(figure.from_datum.then_some(0.0)), TOP, HIGH - BOTTOM);

    let (title, note) = page.map_or_else(|| ("title".into(), "note".into()), |id| (format!("{id}-title"), format!("{id}-note")));
    write!(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDE} {HIGH}\" role=\"img\"")?;
    write!(out, " aria-labelledby=\"{title} {note}\"")?;
    if page.is_some() {
        let (low, high) = down.ends();
        write!(
            out,
            " class=\"figure\" data-top=\"{TOP}\" data-bottom=\"{}\" data-low=\"{low}\" data-high=\"{high}\"",
            HIGH - BOTTOM
        )?;
        write!(out, " data-left=\"{LEFT}\" data-right=\"{}\"", WIDE - RIGHT)?;
    }
    writeln!(out, ">")?;
    if page.is_none() {
        writeln!(out, "<style>{STYLE}</style>")?;
    }
    writeln!(out, "<rect class=\"sheet\" width=\"{WIDE}\" height=\"{HIGH}\"/>")?;
    writeln!(out, "<text class=\"title\" id=\"{title}\" x=\"{LEFT}\" y=\"34\">{}</text>", escape(&figure.title))?;
    writeln!(out, "<text class=\"note\" id=\"{note}\" x=\"{LEFT}\" y=\"56\">{}</text>", escape(&figure.note))?;
    axes(out, figure, across, down)?;
    for band in &figure.bands {
        let back = band.right.iter().rev();
        let path = path(band.left.iter().chain(back), across, down);
        writeln!(out, "<path class=\"band\" d=\"{path}Z\"><title>{}</title></path>", escape(&band.name))?;
    }
    for mark in &figure.marks {
        let y = down.place(mark.depth);
        writeln!(out, "<line class=\"mark\" x1=\"{LEFT}\" x2=\"{:.1}\" y1=\"{y:.1}\" y2=\"{y:.1}\"/>", WIDE - RIGHT)?;
        writeln!(out, "<text class=\"mark-label\" x=\"{:.1}\" y=\"{:.1}\">{}</text>", LEFT + 4.0, y - 3.0, escape(&mark.label))?;
    }
    for series in &figure.series {
        for run in &series.runs {
            let path = path(run.iter(), across, down);
            let (class, name) = (series.role.class(), escape(&series.name));
            writeln!(out, "<path class=\"series {class}\" d=\"{path}\"><title>{name}</title></path>")?;
        }
    }
    legend(out, figure)?;
    writeln!(out, "</svg>")
}

fn axes(out: &mut String, figure: &Figure, across: Scale, down: Scale) -> std::fmt::Result {
    let (right, bottom) = (WIDE - RIGHT, HIGH - BOTTOM);
    let label = |axis: &super::Axis| escape(&format!("{} [{}]", axis.label, axis.unit));
    writeln!(
        out,
        "<text class=\"across\" x=\"{:.1}\" y=\"{:.1}\">{}</text>",
        f64::midpoint(LEFT, right),
        TOP - 30.0,
        label(&figure.across)
    )?;
    for tick in across.ticks() {
        let (x, decimals) = (across.place(tick), across.decimals());
        writeln!(out, "<line class=\"grid\" x1=\"{x:.1}\" x2=\"{x:.1}\" y1=\"{TOP}\" y2=\"{bottom}\"/>")?;
        writeln!(out, "<text class=\"across\" x=\"{x:.1}\" y=\"{:.1}\">{tick:.decimals$}</text>", TOP - 9.0)?;
    }
    let middle = f64::midpoint(TOP, bottom);
    writeln!(out, "<text class=\"across\" transform=\"translate(22 {middle:.1}) rotate(-90)\">{}</text>", label(&figure.down))?;
    for tick in down.ticks() {
        let (y, decimals) = (down.place(tick), down.decimals());
        writeln!(out, "<line class=\"grid\" x1=\"{LEFT}\" x2=\"{right}\" y1=\"{y:.1}\" y2=\"{y:.1}\"/>")?;
        writeln!(out, "<text class=\"down\" x=\"{:.1}\" y=\"{:.1}\">{tick:.decimals$}</text>", LEFT - 8.0, y + 4.0)?;
    }
    writeln!(out, "<rect class=\"frame\" x=\"{LEFT}\" y=\"{TOP}\" width=\"{:.1}\" height=\"{:.1}\"/>", right - LEFT, bottom - TOP)
}

/// One entry for each role that is drawn, in the order of the series.
fn legend(out: &mut String, figure: &Figure) -> std::fmt::Result {
    let mut shown: Vec<Role> = Vec::new();
    for series in &figure.series {
        if shown.contains(&series.role) {
            continue;
        }
        let (column, row) = (shown.len() % 3, shown.len() / 3);
        let (x, y) = (LEFT + column as f64 * 210.0, HIGH - BOTTOM + 32.0 + row as f64 * 24.0);
        shown.push(series.role);
        writeln!(out, "<path class=\"series {}\" d=\"M{x:.1} {y:.1}h34\"/>", series.role.class())?;
        writeln!(out, "<text x=\"{:.1}\" y=\"{:.1}\">{}</text>", x + 42.0, y + 4.0, escape(&series.name))?;
    }
    Ok(())
}

fn path<'a>(points: impl Iterator<Item = &'a (f64, f64)>, across: Scale, down: Scale) -> String {
    let mut path = String::new();
    for (index, (value, depth)) in points.filter(|point| point.0.is_finite() && point.1.is_finite()).enumerate() {
        let step = if index == 0 { 'M' } else { 'L' };
        path.push_str(&format!("{step}{:.1} {:.1}", across.place(*value), down.place(*depth)));
    }
    path
}

/// Text between tags: what a user named a thing must not become markup.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // XML 1.0 allows no other control character, not even escaped.
            control if control.is_control() && !matches!(control, '\n' | '\t' | '\r') => out.push('\u{fffd}'),
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::{Axis, Band, Mark, Series};

    fn figure() -> Figure {
        let line = |x: f64| vec![(x, 0.0), (x + 1.0, 3000.0)];
        Figure {
            title: "Mud window of <Ostrick>".into(),
            note: "12 1/4 in".into(),
            across: Axis { label: "equivalent mud weight".into(), unit: "ppg".into() },
            down: Axis { label: "vertical depth".into(), unit: "ft".into() },
            bands: vec![Band { name: "window".into(), left: line(9.0), right: line(14.0) }],
            series: Role::ALL
                .iter()
                .enumerate()
                .map(|(index, role)| Series { name: role.class().into(), role: *role, runs: vec![line(9.0 + index as f64)] })
                .collect(),
            marks: vec![Mark { label: "13 3/8 in shoe".into(), depth: 2500.0 }],
            from_datum: true,
        }
    }

    #[test]
    fn each_role_has_a_colour_and_a_stroke_of_its_own() {
        for style in [STYLE, PAPER] {
            let look = |role: &Role| {
                let at = style.find(&format!(".{}{{", role.class())).expect("every role has a rule");
                style[at..].split(['{', '}']).nth(1).expect("a rule has a body").to_owned()
            };
            let looks: std::collections::BTreeSet<String> = Role::ALL.iter().map(look).collect();
            assert_eq!(looks.len(), Role::ALL.len());
        }
        assert!(svg_on_paper(&figure()).contains(PAPER), "the style of the screen gives way");
    }

    #[test]
    fn deeper_lies_lower_and_names_are_no_markup() {
        let svg = svg(&figure());
        assert!(svg.contains("Mud window of &lt;Ostrick&gt;"));
        let place = svg.split("class=\"series lower-limit\" d=\"M").nth(1).expect("the series is drawn");
        let ends: Vec<f64> = place
            .split('"')
            .next()
            .expect("the path ends")
            .split('L')
            .map(|point| point.split(' ').nth(1).expect("a place down").parse().expect("a number"))
            .collect();
        assert!(ends[0] < ends[1], "{ends:?}");
    }
}
