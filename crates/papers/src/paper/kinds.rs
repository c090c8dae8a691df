//! Every kind of paper that a well and its rig suffice for, and how one is made.

use super::{Desk, Paper, Part, bit, due, handover, limits, line, mud, power, preventers, programme, rig_fit, running, trip};

/// What a paper says beside its head.
pub(super) struct Body {
    /// From top to bottom.
    pub(super) parts: Vec<Part>,
    /// Why it must not be used; empty when it may.
    pub(super) stale: Vec<String>,
    /// Its own cautions, after those of every paper.
    pub(super) cautions: Vec<&'static str>,
}

impl Body {
    /// One with the cautions of every paper only.
    pub(super) fn plain(parts: Vec<Part>) -> Body {
        Body { parts, stale: Vec::new(), cautions: Vec::new() }
    }
}

/// A kind of paper.
pub struct PaperKind {
    /// Its name in commands and file names.
    pub slug: &'static str,
    /// Its title.
    pub title: &'static str,
    /// What it is for, in a line.
    pub about: &'static str,
    /// Whether the trade expects it on one page.
    pub one_page: bool,
    /// Whether it is about pressure control and opens with that caution.
    pub control: bool,
    /// Whether it is of one hole section: that of the desk.
    pub of_section: bool,
    body: fn(&Desk) -> Body,
}

/// The trip sheet.
pub(super) const TRIP_SHEET: PaperKind = PaperKind {
    slug: "trip-sheet",
    title: "Trip sheet",
    about: "out of one section, stand by stand: what the hole should take, with columns for what was measured",
    one_page: false,
    control: true,
    of_section: true,
    body: trip::body,
};

/// The running sheet.
pub(super) const RUNNING: PaperKind = PaperKind {
    slug: running::RUNNING_SHEET,
    title: "Casing running sheet and tally",
    about: "the casing of one section joint by joint: lengths, tops, volumes, hook loads; by a tally with `--tally FILE`",
    one_page: false,
    control: true,
    of_section: true,
    body: running::body,
};

/// Every kind of paper that a well and its rig suffice for.
pub const PAPERS: &[PaperKind] = &[
    PaperKind {
        slug: "programme",
        title: "Drilling programme",
        about: "the job section by section: hole, casing, mud, string, hydraulics, limits, risks, assumptions",
        one_page: false,
        control: true,
        of_section: false,
        body: |desk| Body::plain(programme::parts(desk)),
    },
    PaperKind {
        slug: "rig-fit",
        title: "Rig-fit sheet",
        about: "one page: five systems, the weakest link, lines, line work, power, what must change",
        one_page: true,
        control: false,
        of_section: false,
        body: |desk| Body::plain(rig_fit::parts(desk)),
    },
    PaperKind {
        slug: "mud-programme",
        title: "Mud programme",
        about: "mud by section: window, weight, readings, volumes, weighting up, room in the pits",
        one_page: false,
        control: false,
        of_section: false,
        body: |desk| Body::plain(mud::parts(desk)),
    },
    PaperKind {
        slug: "bit-sheet",
        title: "Bit and hydraulics sheet",
        about: "bits, nozzles, flow, pressures and cleaning by section, with columns for what was run",
        one_page: true,
        control: false,
        of_section: false,
        body: |desk| Body::plain(bit::parts(desk)),
    },
    PaperKind {
        slug: "power-sheet",
        title: "Power sheet",
        about: "load by operation, sets on line, one set lost, starting, emergency power, fuel",
        one_page: true,
        control: false,
        of_section: false,
        body: |desk| Body::plain(power::parts(desk)),
    },
    PaperKind {
        slug: "line-record",
        title: "Line record",
        about: "the drilling line job by job: work, where to slip and to cut, what is left, with columns for what was done",
        one_page: true,
        control: false,
        of_section: false,
        body: line::body,
    },
    PaperKind {
        slug: "preventer-test",
        title: "Preventer test",
        about: "form for the pressure test of preventers, manifold and valves: pressures, times, signatures",
        one_page: true,
        control: true,
        of_section: false,
        body: |desk| Body::plain(preventers::parts(desk)),
    },
    PaperKind {
        slug: "handover",
        title: "Handover sheet",
        about: "what the next tour takes over: state of the well, limits, what is off normal",
        one_page: true,
        control: true,
        of_section: false,
        body: |desk| Body::plain(handover::parts(desk)),
    },
    PaperKind {
        slug: "limits-card",
        title: "Limits card",
        about: "to be posted: what the shut-in well may show, kick tolerance, filling, trip speeds, of one section",
        one_page: true,
        control: true,
        of_section: true,
        body: limits::body,
    },
    TRIP_SHEET,
    RUNNING,
    PaperKind {
        slug: "tests-due",
        title: "Tests and drills due",
        about: "what falls due by the rules of the jurisdiction, how each stands, room for what was done since",
        one_page: true,
        control: true,
        of_section: false,
        body: due::body,
    },
];

impl PaperKind {
    /// The kind of this name.
    pub fn find(slug: &str) -> Option<&'static PaperKind> {
        PAPERS.iter().find(|kind| kind.slug == slug)
    }

    /// Makes the paper.
    pub fn make(&self, desk: &Desk) -> Paper {
        self.with(desk, (self.body)(desk))
    }

    /// The paper with this body.
    pub(super) fn with(&self, desk: &Desk, body: Body) -> Paper {
        let cautions = crate::sheet::CAUTIONS.iter().copied().skip(usize::from(!self.control));
        Paper {
            slug: self.slug,
            title: self.title,
            one_page: self.one_page,
            control: self.control,
            head: desk.head_of(self.slug, self.of_section.then(|| desk.section())),
            stale: body.stale,
            parts: body.parts,
            cautions: cautions.chain(body.cautions).collect(),
        }
    }
}
