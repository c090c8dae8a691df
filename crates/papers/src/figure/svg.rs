//! The one writer of SVG. Every element bears a class, and one style sheet in the file gives the classes their look:
//! the Okabe-Ito colours (M. Okabe and K. Ito, "Color universal design", 2008), thin rules, light or dark as the
//! reader's screen. A page may leave the sheet out and bring its own.

use super::scale::Scale;
use super::{Figure, Fill, Lie, Role};
use crate::text::cut;
use std::fmt::Write as _;

const STYLE: &str = "\
.sheet{fill:#fff}text{font:13px system-ui,sans-serif;fill:#222}.title{font-size:18px;font-weight:600}.note{fill:#555}\
.grid{stroke:#ddd;stroke-width:.6}.frame{fill:none;stroke:#222;stroke-width:1}.mark{stroke:#555;stroke-width:.8;stroke-dasharray:2 3}\
.mark-label{font-size:11px;fill:#555;paint-order:stroke;stroke:#fff;stroke-width:3}.across{text-anchor:middle}.down{text-anchor:end}\
.band{fill:#0072b2;fill-opacity:.08}.band.cement{fill:#888;fill-opacity:.45}.band.steel{fill:#555;fill-opacity:.6}\
.series{fill:none;stroke-width:2;stroke-linejoin:round}\
.lower-limit{stroke:#d55e00}.upper-limit{stroke:#0072b2}.still{stroke:#009e73}\
.flowing{stroke:#cc79a7;stroke-dasharray:9 4}.pulling{stroke:#e69f00;stroke-dasharray:3 3}.running{stroke:#56b4e9;stroke-dasharray:9 3 2 3}\
.circulating{stroke:#cc79a7;stroke-dasharray:2 3}.running-casing{stroke:#56b4e9;stroke-width:3}.shut-in{stroke:#999999;stroke-dasharray:12 3}\
.demand{stroke:#222}.drawworks{stroke:#e69f00}.drive{stroke:#009e73;stroke-dasharray:6 3}.wall{stroke:#888;stroke-dasharray:1 3}\
.casing{stroke:#555;stroke-width:2.5}.pipe{stroke:#0072b2;stroke-width:1.2}.used{fill:#0072b2}.limit{stroke:#222;stroke-width:2}\
.hole{stroke:#222;stroke-width:1.4}.bit{stroke:#56b4e9;stroke-width:1}\
@media(prefers-color-scheme:dark){.sheet{fill:#14171a}text{fill:#e6e6e6}.note,.mark-label{fill:#aaa}.mark-label{stroke:#14171a}.grid{stroke:#333}\
.frame,.limit,.hole{stroke:#ccc}.mark{stroke:#999}.demand,.casing{stroke:#e6e6e6}.used{fill:#56b4e9}}";

/// Black on white, each role told by its stroke alone: what a photocopy keeps.
const PAPER: &str = "\
.sheet{fill:#fff}text{font-family:'Open Sans';font-size:13px;fill:#000}.title{font-size:18px;font-weight:600}.note{fill:#000}\
.grid{stroke:#bbb;stroke-width:.5}.frame{fill:none;stroke:#000;stroke-width:1}.mark{stroke:#000;stroke-width:.6;stroke-dasharray:1 3}\
.mark-label{font-size:11px;paint-order:stroke;stroke:#fff;stroke-width:3}.across{text-anchor:middle}.down{text-anchor:end}.band{fill:#000;fill-opacity:.05}\
.series{fill:none;stroke:#000;stroke-width:1.6;stroke-linejoin:round}\
.lower-limit{stroke-width:3}.upper-limit{stroke-width:3;stroke-dasharray:14 3}.still{stroke-width:1.2}\
.flowing{stroke-dasharray:9 4}.pulling{stroke-dasharray:2 3}.running{stroke-dasharray:9 3 2 3}\
.circulating{stroke-dasharray:5 2}.running-casing{stroke-dasharray:9 3 2 3 2 3}.shut-in{stroke-dasharray:16 6}\
.demand{stroke-width:1.6}.drawworks{stroke-dasharray:1 2}.drive{stroke-dasharray:6 3}.wall{stroke-dasharray:1 4}\
.casing{stroke-width:2.2}.pipe{stroke-width:.8}.hole{stroke-width:1.4}.bit{stroke-width:1;stroke-dasharray:3 1}\
.band.cement{fill:url(#hatch);fill-opacity:1}.band.steel{fill:#000;fill-opacity:.75}.limit{fill:none;stroke:#000}.used{fill:#777}";

/// What cement is filled with on paper: strokes that a photocopy keeps apart from the grey of steel.
const HATCH: &str = "<defs><pattern id=\"hatch\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" \
patternTransform=\"rotate(45)\"><path d=\"M0 0V6\" stroke=\"#000\" stroke-width=\"1.2\"/></pattern></defs>";

/// The figure as an SVG document.
pub fn svg(figure: &Figure) -> String {
    drawn(figure, None)
}

/// Longest label of a mark on paper. [columns]
const LABEL: usize = 60;

/// The figure as an SVG document for paper, where a caption below it says what it shows: lines of SVG do not wrap.
pub fn svg_on_paper(figure: &Figure) -> String {
    let mut figure = Figure { title: String::new(), note: String::new(), ..figure.clone() };
    for mark in &mut figure.marks {
        mark.label = cut(&mark.label, LABEL);
    }
    figure.along.label = cut(&figure.along.label, LABEL);
    drawn(&figure, None).replacen(&format!("{STYLE}</style>"), &format!("{PAPER}</style>{HATCH}"), 1)
}

/// The figure as an element of a page that brings its own style. `id` sets its names apart from those of other figures
/// of that page. The edges and ends of the axis stand as `data-` words, for a cross-hair.
pub fn svg_in_page(figure: &Figure, id: &str) -> String {
    drawn(figure, Some(id))
}

fn drawn(figure: &Figure, page: Option<&str>) -> String {
    let mut out = String::new();
    Sheet::new(figure).write(&mut out, page).unwrap_or_else(|_| unreachable!("a string takes every write"));
    out
}

/// The edges of what is drawn, in the units of the picture.
#[derive(Clone, Copy)]
pub(super) struct Edges {
    pub(super) wide: f64,
    pub(super) high: f64,
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) top: f64,
    pub(super) bottom: f64,
}

/// A tall sheet for depth.
const TALL: Edges = Edges { wide: 720.0, high: 960.0, left: 84.0, right: 700.0, top: 120.0, bottom: 852.0 };
/// A broad one for all else.
const BROAD: Edges = Edges { wide: 960.0, high: 600.0, left: 96.0, right: 940.0, top: 84.0, bottom: 476.0 };

/// The head of a picture, up to its title and note.
pub(super) fn head(out: &mut String, edges: &Edges, data: &str, words: [&str; 2], page: Option<&str>) -> std::fmt::Result {
    let (title, note) = page.map_or_else(|| ("title".into(), "note".into()), |id| (format!("{id}-title"), format!("{id}-note")));
    let Edges { wide, high, left, .. } = *edges;
    write!(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {wide} {high}\" role=\"img\"")?;
    write!(out, " aria-labelledby=\"{title} {note}\"")?;
    if page.is_some() {
        write!(out, " class=\"figure\"{data}")?;
    }
    writeln!(out, ">")?;
    if page.is_none() {
        writeln!(out, "<style>{STYLE}</style>")?;
    }
    writeln!(out, "<rect class=\"sheet\" width=\"{wide}\" height=\"{high}\"/>")?;
    writeln!(out, "<text class=\"title\" id=\"{title}\" x=\"{left}\" y=\"30\">{}</text>", escape(words[0]))?;
    writeln!(out, "<text class=\"note\" id=\"{note}\" x=\"{left}\" y=\"52\">{}</text>", escape(words[1]))
}

/// A figure with its scales.
struct Sheet<'a> {
    figure: &'a Figure,
    edges: Edges,
    values: Scale,
    along: Scale,
}

impl Sheet<'_> {
    fn new(figure: &Figure) -> Sheet<'_> {
        let points = || figure.series.iter().flat_map(|series| series.runs.iter().flatten());
        let borders = || figure.bands.iter().flat_map(|band| band.low.iter().chain(&band.high));
        let values = points().chain(borders()).map(|point| point.0);
        let places = points().chain(borders()).map(|point| point.1).chain(figure.marks.iter().map(|mark| mark.at));
        let places = places.chain(figure.from_zero.then_some(0.0));
        match figure.lie {
            Lie::Downward => {
                let edges = TALL;
                let values = Scale::around(values, edges.left, edges.right);
                Sheet { figure, edges, values, along: Scale::around(places, edges.top, edges.bottom) }
            }
            Lie::Rightward => {
                let edges = BROAD;
                // Heights are compared from the ground up.
                let values = Scale::around(values.chain(std::iter::once(0.0)), edges.bottom, edges.top);
                Sheet { figure, edges, values, along: Scale::around(places, edges.left, edges.right) }
            }
        }
    }

    /// Where a point (value, place along) lies.
    fn place(&self, point: (f64, f64)) -> (f64, f64) {
        let (value, along) = (self.values.place(point.0), self.along.place(point.1));
        match self.figure.lie {
            Lie::Downward => (value, along),
            Lie::Rightward => (along, value),
        }
    }

    fn path<'b>(&self, points: impl Iterator<Item = &'b (f64, f64)>) -> String {
        let mut path = String::new();
        for (index, point) in points.filter(|point| point.0.is_finite() && point.1.is_finite()).enumerate() {
            let (x, y) = self.place(*point);
            let step = if index == 0 { 'M' } else { 'L' };
            path.push_str(&format!("{step}{x:.1} {y:.1}"));
        }
        path
    }

    fn write(&self, out: &mut String, page: Option<&str>) -> std::fmt::Result {
        let (figure, Edges { left, right, top, bottom, .. }) = (self.figure, self.edges);
        let (low, high) = self.along.ends();
        let lie = match figure.lie {
            Lie::Downward => "down",
            Lie::Rightward => "right",
        };
        let data = format!(
            " data-lie=\"{lie}\" data-top=\"{top}\" data-bottom=\"{bottom}\" data-left=\"{left}\" data-right=\"{right}\" \
             data-low=\"{low}\" data-high=\"{high}\""
        );
        head(out, &self.edges, &data, [&figure.title, &figure.note], page)?;
        self.axes(out)?;
        for band in &figure.bands {
            let path = self.path(band.low.iter().chain(band.high.iter().rev()));
            let (class, name) = (band.fill.class(), escape(&band.name));
            writeln!(out, "<path class=\"{class}\" d=\"{path}Z\"><title>{name}</title></path>")?;
        }
        for series in &figure.series {
            for run in &series.runs {
                let path = self.path(run.iter());
                let (class, name) = (series.role.class(), escape(&series.name));
                writeln!(out, "<path class=\"series {class}\" d=\"{path}\"><title>{name}</title></path>")?;
            }
        }
        self.marks(out)?;
        self.legend(out)?;
        writeln!(out, "</svg>")
    }

    /// Marks last, so that no line strikes their words out.
    fn marks(&self, out: &mut String) -> std::fmt::Result {
        let Edges { left, right, top, bottom, .. } = self.edges;
        for mark in &self.figure.marks {
            let (at, label) = (self.along.place(mark.at), escape(&mark.label));
            match self.figure.lie {
                Lie::Downward => {
                    writeln!(out, "<line class=\"mark\" x1=\"{left}\" x2=\"{right}\" y1=\"{at:.1}\" y2=\"{at:.1}\"/>")?;
                    writeln!(out, "<text class=\"mark-label\" x=\"{:.1}\" y=\"{:.1}\">{label}</text>", left + 4.0, at - 3.0)?;
                }
                Lie::Rightward => {
                    writeln!(out, "<line class=\"mark\" x1=\"{at:.1}\" x2=\"{at:.1}\" y1=\"{top}\" y2=\"{bottom}\"/>")?;
                    let (x, y) = (at - 3.0, top + 4.0);
                    writeln!(
                        out,
                        "<text class=\"mark-label down\" transform=\"translate({x:.1} {y:.1}) rotate(-90)\">{label}</text>"
                    )?;
                }
            }
        }
        Ok(())
    }

    fn axes(&self, out: &mut String) -> std::fmt::Result {
        let Edges { left, right, top, bottom, .. } = self.edges;
        let label = |axis: &super::Axis| {
            escape(&if axis.unit.is_empty() { axis.label.clone() } else { format!("{} [{}]", axis.label, axis.unit) })
        };
        let downward = self.figure.lie == Lie::Downward;
        let (across, upright) = if downward { (self.values, self.along) } else { (self.along, self.values) };
        let (across_label, upright_label) = if downward {
            (label(&self.figure.values), label(&self.figure.along))
        } else {
            (label(&self.figure.along), label(&self.figure.values))
        };
        // Depth has its figures above, where one begins to read; all else below, as is the custom.
        let (ticks_at, label_at) = if downward { (top - 9.0, top - 30.0) } else { (bottom + 20.0, bottom + 44.0) };
        let middle = f64::midpoint(left, right);
        writeln!(out, "<text class=\"across\" x=\"{middle:.1}\" y=\"{label_at:.1}\">{across_label}</text>")?;
        for tick in across.ticks() {
            let (x, decimals) = (across.place(tick), across.decimals());
            writeln!(out, "<line class=\"grid\" x1=\"{x:.1}\" x2=\"{x:.1}\" y1=\"{top}\" y2=\"{bottom}\"/>")?;
            writeln!(out, "<text class=\"across\" x=\"{x:.1}\" y=\"{ticks_at:.1}\">{tick:.decimals$}</text>")?;
        }
        let middle = f64::midpoint(top, bottom);
        writeln!(out, "<text class=\"across\" transform=\"translate(22 {middle:.1}) rotate(-90)\">{upright_label}</text>")?;
        for tick in upright.ticks() {
            let (y, decimals) = (upright.place(tick), upright.decimals());
            writeln!(out, "<line class=\"grid\" x1=\"{left}\" x2=\"{right}\" y1=\"{y:.1}\" y2=\"{y:.1}\"/>")?;
            writeln!(out, "<text class=\"down\" x=\"{:.1}\" y=\"{:.1}\">{tick:.decimals$}</text>", left - 8.0, y + 4.0)?;
        }
        let (wide, high) = (right - left, bottom - top);
        writeln!(out, "<rect class=\"frame\" x=\"{left}\" y=\"{top}\" width=\"{wide:.1}\" height=\"{high:.1}\"/>")
    }

    /// One entry for each role that is drawn, in the order of the series, then one for each fill that is a thing.
    fn legend(&self, out: &mut String) -> std::fmt::Result {
        let Edges { left, bottom, .. } = self.edges;
        let (columns, below) = if self.figure.lie == Lie::Downward { (3, 32.0) } else { (4, 68.0) };
        let at = |entry: usize| (left + (entry % columns) as f64 * 210.0, bottom + below + (entry / columns) as f64 * 24.0);
        let mut shown: Vec<Role> = Vec::new();
        for series in &self.figure.series {
            if shown.contains(&series.role) {
                continue;
            }
            let (x, y) = at(shown.len());
            shown.push(series.role);
            writeln!(out, "<path class=\"series {}\" d=\"M{x:.1} {y:.1}h34\"/>", series.role.class())?;
            writeln!(out, "<text x=\"{:.1}\" y=\"{:.1}\">{}</text>", x + 42.0, y + 4.0, escape(&series.name))?;
        }
        let things = [(Fill::Steel, "steel"), (Fill::Cement, "cement")];
        let filled = things.iter().filter(|(fill, _)| self.figure.bands.iter().any(|band| band.fill == *fill));
        for (entry, (fill, name)) in (shown.len()..).zip(filled) {
            let (x, y) = at(entry);
            writeln!(out, "<path class=\"{}\" d=\"M{x:.1} {:.1}h34v12h-34Z\"/>", fill.class(), y - 6.0)?;
            writeln!(out, "<text x=\"{:.1}\" y=\"{:.1}\">{name}</text>", x + 42.0, y + 4.0)?;
        }
        Ok(())
    }
}

/// Text between tags: what a user named a thing must not become markup.
pub(super) fn escape(text: &str) -> String {
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
            values: Axis { label: "equivalent mud weight".into(), unit: "ppg".into() },
            along: Axis { label: "vertical depth".into(), unit: "ft".into() },
            bands: vec![Band { name: "window".into(), fill: Fill::Window, low: line(9.0), high: line(14.0) }],
            series: Role::ALL
                .iter()
                .enumerate()
                .map(|(index, role)| Series { name: role.class().into(), role: *role, runs: vec![line(9.0 + index as f64)] })
                .collect(),
            marks: vec![Mark { label: "13 3/8 in shoe".into(), at: 2500.0 }],
            lie: Lie::Downward,
            from_zero: true,
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
    fn later_lies_to_the_right_and_more_lies_higher() {
        let figure = Figure { lie: Lie::Rightward, ..figure() };
        let sheet = Sheet::new(&figure);
        let (before, after) = (sheet.place((9.0, 0.0)), sheet.place((14.0, 3000.0)));
        assert!(after.0 > before.0 && after.1 < before.1, "{before:?} {after:?}");
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
