//! The theme that a terminal's variables ask for.

use super::Theme;
use crate::colour::Ground;

impl Theme {
    /// The colours that were asked for and that the terminal says it has: `says` gives the text of
    /// a variable, empty where it is not set. `plain` is what was typed. The ground may be known
    /// better later: [`Theme::on`].
    pub fn told(plain: bool, says: impl Fn(&str) -> String) -> Theme {
        let is = |name: &str, values: &[&str]| values.contains(&says(name).as_str());
        // The fonts of a text console have blocks and no dots.
        let (dumb, console) = (is("TERM", &["dumb"]), is("TERM", &["linux"]));
        let colourless = !says("NO_COLOR").is_empty();
        let ground = Ground::of_variable(&says("COLORFGBG"));
        if plain || dumb || (console && colourless) {
            Theme::Ascii
        } else if colourless {
            Theme::Plain
        } else if console {
            Theme::Console
        } else if is("COLORTERM", &["truecolor", "24bit"]) {
            Theme::AllColours(ground)
        } else {
            Theme::Colours(ground)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_terminal_gets_the_colours_that_it_says_it_has() {
        let told = |plain, variables: &[(&str, &str)]| {
            Theme::told(plain, |name| {
                let own = variables.iter().find(|(own, _)| *own == name);
                own.map_or(String::new(), |(_, text)| (*text).to_string())
            })
        };
        let light = ("COLORFGBG", "0;15");
        let all = ("COLORTERM", "truecolor");
        let (term, none) = (("TERM", "xterm-256color"), ("NO_COLOR", "1"));
        assert_eq!(told(false, &[term]), Theme::Colours(None));
        assert_eq!(
            told(false, &[term, light]),
            Theme::Colours(Some(Ground::Light))
        );
        assert_eq!(
            told(false, &[term, all, light]),
            Theme::AllColours(Some(Ground::Light))
        );
        assert_eq!(told(false, &[term, all, none]), Theme::Plain);
        assert_eq!(told(false, &[("TERM", "linux"), all]), Theme::Console);
        assert_eq!(told(false, &[("TERM", "linux"), none]), Theme::Ascii);
        assert_eq!(told(false, &[("TERM", "dumb")]), Theme::Ascii);
        assert_eq!(told(true, &[term, all]), Theme::Ascii);
    }
}
