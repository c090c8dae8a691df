//! What must not get in, and what every answer bears.

use crate::site::{Site, field};
use axum::body::Body;
use hyper::{Request, StatusCode};
use rigwright_web::Server;

#[tokio::test]
async fn every_answer_bears_the_policy() {
    let site = Site::new();
    for url in ["/", "/sheet?well=ostrick.toml", "/nowhere", "/assets/page.css", "/sheet?well=../x", "/new"] {
        let answer = site.get(url).await;
        let policy = answer.headers.get("content-security-policy").expect("a policy").to_str().expect("text");
        assert!(policy.contains("default-src 'none'") && !policy.contains("unsafe"), "{url}: {policy}");
        assert_eq!(answer.headers.get("x-content-type-options").expect("set"), "nosniff");
    }
}

/// The policy forbids script and style inside a page, so none may stand there.
#[tokio::test]
async fn no_script_or_style_stands_inside_a_page() {
    let site = Site::new();
    for url in PAGES {
        let page = site.get(url).await;
        assert_eq!(page.status, StatusCode::OK, "{url}");
        for scrap in [" style=", "<style", " onclick", " onload", "javascript:"] {
            assert!(!page.text.contains(scrap), "{url} holds {scrap}");
        }
        assert_eq!(page.text.matches("<script").count(), 1, "{url}");
        assert!(page.text.contains("If the well flows, shut in first, compute after."), "{url} bears the caution");
    }
}

pub(crate) const PAGES: [&str; 18] = [
    "/",
    "/sheet?well=ostrick.toml",
    "/sheet?well=tolvane.toml",
    "/answer?well=ostrick.toml&question=hoisting/hook-load&section=2",
    "/pictures?well=ostrick.toml",
    "/pictures?well=ostrick.toml&show=mast",
    "/kill?well=ostrick.toml",
    "/papers?well=ostrick.toml",
    "/paper?well=ostrick.toml&paper=rig-fit",
    "/due?well=ostrick.toml",
    "/inputs?well=ostrick.toml",
    "/edit?well=ostrick.toml",
    "/beside?well=ostrick.toml",
    "/new",
    "/formulas",
    "/formulas/hydrostatic-pressure?density=10+ppg&vertical_depth=1000+ft",
    "/manual",
    "/settings",
];

#[tokio::test]
async fn a_name_that_is_not_ours_is_refused() {
    let site = Site::new();
    for (host, good) in [
        ("127.0.0.1:7117", true),
        ("localhost:7117", true),
        ("[::1]:7117", true),
        ("rebound.example:7117", false),
        ("127.0.0.1", false),
        ("127.0.0.1:7118", false),
        ("192.0.2.7:7117", false),
        ("127.0.0.1.example:7117", false),
    ] {
        let answer = site.send(Request::get("/").header("host", host).body(Body::empty()).expect("a request")).await;
        assert_eq!(answer.status == StatusCode::OK, good, "{host}: {}", answer.status);
    }
    let nameless = site.send(Request::get("/").body(Body::empty()).expect("a request")).await;
    assert_eq!(nameless.status, StatusCode::MISDIRECTED_REQUEST);
}

#[tokio::test]
async fn forms_from_elsewhere_are_refused() {
    let site = Site::new();
    let secret = field(&site.get("/new").await.text, "form_secret");
    let body = format!("form_secret={secret}&name=Elsewhere");
    let post = || Request::post("/new").header("host", "127.0.0.1:7117");
    let foreign = post().header("origin", "http://elsewhere.example").body(Body::from(body.clone())).expect("a request");
    assert_eq!(site.send(foreign).await.status, StatusCode::FORBIDDEN);
    let cross = post().header("sec-fetch-site", "cross-site").body(Body::from(body.clone())).expect("a request");
    assert_eq!(site.send(cross).await.status, StatusCode::FORBIDDEN);
    let without = post().body(Body::from("name=Elsewhere")).expect("a request");
    assert_eq!(site.send(without).await.status, StatusCode::FORBIDDEN);
    assert!(!site.folder.join("elsewhere.toml").exists());
    let ours = post().header("origin", "http://127.0.0.1:7117").body(Body::from(body)).expect("a request");
    assert_eq!(site.send(ours).await.status, StatusCode::SEE_OTHER);
    assert!(site.folder.join("elsewhere.toml").exists());
}

#[tokio::test]
async fn no_name_leads_out_of_the_folder() {
    let site = Site::new();
    let outside = site.folder.parent().expect("a parent").join(format!("outside-{}.toml", std::process::id()));
    std::fs::write(&outside, "name = \"THE SECRET\"\n[[section]]\n").expect("written");
    let name = outside.file_name().expect("a name").to_string_lossy().into_owned();
    let mut names = vec![
        format!("../{name}"),
        format!("rigs/../../{name}"),
        format!("%2e%2e/{name}"),
        outside.display().to_string(),
        "/etc/passwd".to_owned(),
        "..\\secret".to_owned(),
        ".hidden".to_owned(),
        String::new(),
    ];
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(&outside, site.folder.join("linked.toml")).expect("linked");
        names.push("linked.toml".to_owned());
    }
    // A well that names a rig outside.
    let text = site.file("ostrick.toml").replace("rigs/anvil-12.toml", &format!("../{name}"));
    std::fs::write(site.folder.join("leads-out.toml"), text).expect("written");
    names.push("leads-out.toml".to_owned());
    for name in names {
        for path in ["/sheet", "/edit", "/write", "/inputs", "/kill", "/papers", "/paper.pdf"] {
            let query = form_urlencoded::Serializer::new(String::new()).append_pair("well", &name).finish();
            let answer = site.get(&format!("{path}?{query}")).await;
            assert!(!answer.text.contains("THE SECRET") && !answer.text.contains("root:"), "{path} {name}");
            assert!(answer.status.is_client_error() || name == "leads-out.toml", "{path} {name}: {}", answer.status);
        }
    }
    std::fs::remove_file(outside).expect("removed");
}

#[tokio::test]
async fn an_address_that_others_reach_needs_the_phrase() {
    let clock = || "2026-11-25T06:00:00Z".parse().expect("a moment");
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let open = Server::new(&folder, None, "0.0.0.0:7117".parse().expect("an address"), None, clock);
    assert!(open.is_err(), "no phrase, no server");

    let site = Site::with(Some("the phrase of this crew"), "0.0.0.0:7117");
    for url in ["/", "/sheet?well=ostrick.toml", "/edit?well=ostrick.toml", "/manual"] {
        let answer = site.get(url).await;
        assert_eq!(answer.status, StatusCode::SEE_OTHER, "{url}");
        assert_eq!(answer.headers.get("location").expect("set"), "/enter");
    }
    let secret = field(&site.get("/enter").await.text, "form_secret");
    let enter = |phrase: &str| {
        let body = format!("form_secret={secret}&phrase={}", phrase.replace(' ', "+"));
        Request::post("/enter").header("host", "192.0.2.7:7117").body(Body::from(body)).expect("a request")
    };
    assert_eq!(site.send(enter("another phrase altogether")).await.status, StatusCode::UNAUTHORIZED);
    let entered = site.send(enter("the phrase of this crew")).await;
    assert_eq!(entered.status, StatusCode::SEE_OTHER);
    let cookie = entered.headers.get("set-cookie").expect("a cookie").to_str().expect("text").to_owned();
    assert!(cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"), "{cookie}");
    let named = cookie.split(';').next().expect("a pair");
    let known = Request::get("/").header("host", "192.0.2.7:7117").header("cookie", named).body(Body::empty());
    assert_eq!(site.send(known.expect("a request")).await.status, StatusCode::OK);
    let mut last = StatusCode::OK;
    for _ in 0..12 {
        last = site.send(enter("guess after guess after guess")).await.status;
    }
    assert_eq!(last, StatusCode::TOO_MANY_REQUESTS);
}

/// Whatever is sent, an answer comes, and it is no fault of ours.
#[tokio::test]
async fn malformed_requests_are_answered() {
    let site = Site::new();
    let paths = [
        "/",
        "/sheet",
        "/answer",
        "/pictures",
        "/kill",
        "/paper",
        "/due",
        "/beside",
        "/write",
        "/formulas/x",
        "/manual/..",
        "/course.csv",
        "/%00",
    ];
    let scraps = [
        "",
        "well",
        "well=",
        "well=%ff%fe",
        "well=ostrick.toml&section=-1",
        "well=ostrick.toml&section=99999999999999999999",
        "well=ostrick.toml&question=%00",
        "well=ostrick.toml&if.=1",
        "well=ostrick.toml&if.section[9].mud.weight=1+sg",
        "well=ostrick.toml&if.section[0].mud.weight=NaN",
        "well=ostrick.toml&if.section[x.mud=1",
        "well=ostrick.toml&from=1e999&to=-1e999",
        "well=ostrick.toml&sidpp=1e999+psi&sicp=-1+psi",
        "well=ostrick.toml&if.rig.line.strung=[[[[",
        "&&&&=====",
        "%",
        "well=ostrick.toml&kept=%ff",
        "well=ostrick.toml&if.section[0].mud.weight=12+ppg&kept=if.a%3d1&kept=if.b%3d2",
        "well=ostrick.toml&sidpp=&bit=0+ft&weight=0+ppg",
        "well=ostrick.toml&if.section[0].string[0].nozzles=0x0",
        "well=ostrick.toml&if.kick=1",
        "well=ostrick.toml&if.section[0]=1",
    ];
    let mut sent = 0;
    for round in 0..40 {
        for path in paths {
            let scrap = scraps[(sent + round) % scraps.len()];
            let answer = site.get(&format!("{path}?{scrap}")).await;
            assert!(!answer.status.is_server_error(), "{path}?{scrap}: {}", answer.status);
            sent += 1;
        }
    }
    for method in ["PUT", "DELETE", "OPTIONS", "TRACE", "BREW"] {
        let request = Request::builder().method(method).uri("/").header("host", "127.0.0.1:7117").body(Body::empty());
        assert_eq!(site.send(request.expect("a request")).await.status, StatusCode::METHOD_NOT_ALLOWED);
    }
    let long = format!("/sheet?well={}", "a".repeat(20_000));
    assert_eq!(site.get(&long).await.status, StatusCode::URI_TOO_LONG);
    let body = "x".repeat(13 << 20);
    let huge = Request::post("/new").header("host", "127.0.0.1:7117").body(Body::from(body)).expect("a request");
    assert_eq!(site.send(huge).await.status, StatusCode::PAYLOAD_TOO_LARGE);
    assert_eq!(site.get("/sheet?well=ostrick.toml").await.status, StatusCode::OK);
}
