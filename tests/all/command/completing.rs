//! What the Tab key offers in bash: ids, and the names and numbers of the folder.

use std::path::Path;
use std::process::Command;

use crate::common::shell::trug;

/// A home with the demo's folder and the script of bash.
struct Shell(tempfile::TempDir);

impl Shell {
    fn new() -> Shell {
        let shell = Shell(tempfile::tempdir().expect("a home"));
        let home = shell.0.path();
        let folder = home.join("garden").display().to_string();
        trug(home, &["start", &folder, "--demo"]).done();
        let script = trug(home, &["completions", "bash"]).done();
        std::fs::write(home.join("trug.bash"), script).expect("a script");
        shell
    }

    /// What stands in place of the line's last word, in the folder, as Tab offers it.
    fn tab(&self, line: &str) -> Vec<String> {
        let program = Path::new(env!("CARGO_BIN_EXE_trug"));
        let path = std::env::var("PATH").unwrap_or_default();
        let dir = program.parent().expect("where it lies").display();
        // The words as bash parts them: an equals sign is a word of its own.
        let script = format!(
            "source ../trug.bash; COMP_LINE='{line}'; COMP_POINT=${{#COMP_LINE}}; \
             spaced=${{COMP_LINE//=/ = }}; read -ra COMP_WORDS <<< \"$spaced\"; \
             [[ $COMP_LINE == *[\\ =] ]] && COMP_WORDS+=(''); \
             COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); \
             _trug_words trug \"${{COMP_WORDS[COMP_CWORD]}}\" \"${{COMP_WORDS[COMP_CWORD-1]}}\"; \
             printf '%s\\n' \"${{COMPREPLY[@]}}\""
        );
        let output = Command::new("bash")
            .args(["--norc", "-c", &script])
            .current_dir(self.0.path().join("garden"))
            .env("HOME", self.0.path())
            .env("PATH", format!("{dir}:{path}"))
            .env_remove("TRUG_AT")
            .output()
            .expect("bash");
        let text = String::from_utf8(output.stdout).expect("text");
        assert!(output.status.success(), "{line}: {text}");
        text.lines().map(str::to_string).collect()
    }
}

#[test]
fn tab_completes_the_numbers_of_the_row() {
    let shell = Shell::new();
    let offered = shell.tab("trug row note 24-");
    assert!(offered.contains(&"24-002".to_string()), "{offered:?}");
    assert!(
        offered.iter().all(|one| one.starts_with("24-")),
        "{offered:?}"
    );
    // One that was just added is offered too.
    let home = shell.0.path();
    let folder = home.join("garden").display().to_string();
    trug(home, &["--at", &folder, "row", "add", "31-007"]).done();
    assert_eq!(shell.tab("trug row note 31-"), ["31-007"]);
    assert_eq!(shell.tab("trug row decide 31-007 ho"), ["hold"]);
}

#[test]
fn tab_completes_forms_uses_traits_colours_and_names() {
    let shell = Shell::new();
    for (line, offered) in [
        ("trug choose --form miniature-b", "miniature-ball"),
        ("trug choose --form=miniature-b", "miniature-ball"),
        ("trug choose --use event", "event-focal"),
        ("trug rules show formal-d", "formal-decorative"),
        ("trug key centre=cl", "closed"),
        ("trug row note 24-002 diam", "diameter="),
        ("trug colour plu", "plum"),
        ("trug order --set mone", "money="),
        ("trug ord", "order"),
    ] {
        let found = shell.tab(line);
        assert!(found.contains(&offered.to_string()), "{line}: {found:?}");
    }
    // A name with a blank is one word of the line.
    let names = shell.tab("trug order --why Haaf");
    assert!(names.contains(&"Haaf\\ Buckle".to_string()), "{names:?}");
}

#[test]
fn a_folder_that_cannot_be_read_offers_nothing() {
    let shell = Shell::new();
    let settings = shell.0.path().join("garden/settings.ron");
    std::fs::write(settings, "(").expect("a broken file");
    assert_eq!(shell.tab("trug rules show formal-d"), [""]);
}
