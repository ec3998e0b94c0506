//! Forms: every field keeps what was typed, shows what is wrong beside it, and comes back as a draft.
//!
//! Reading what was sent is [`crate::server::Form`].

use maud::{Markup, html};
use uuid::Uuid;

use crate::Trouble;
use crate::ask::Ask;
use crate::words::Words;

/// One form on a screen.
pub(crate) struct FormPart<'a> {
    ask: &'a Ask<'a>,
    act: &'static str,
    key: String,
    /// What is typed in already: just now and refused, or in a draft.
    typed: Option<Vec<(String, String)>>,
    trouble: Option<&'a Trouble>,
    draft_ms: Option<i64>,
    holds_files: bool,
}

/// What a number field is told.
pub(crate) struct NumberField<'a> {
    /// The field's name in the form.
    pub(crate) name: &'a str,
    /// Its label's message.
    pub(crate) label: &'a str,
    /// The unit, in a form that the rules read, such as `mph`.
    pub(crate) unit: &'a str,
    /// What stands there at first.
    pub(crate) filled: Option<String>,
    /// Where that comes from, such as "from 14 May"; empty where it is not copied.
    pub(crate) from: String,
}

impl<'a> Ask<'a> {
    /// A form for one of the screen's actions.
    pub(crate) fn form(&'a self, act: &'static str) -> FormPart<'a> {
        self.form_keyed(act, "")
    }

    /// One of several forms for the same action, told apart by `key`, which is sent along.
    pub(crate) fn form_keyed(&'a self, act: &'static str, key: &str) -> FormPart<'a> {
        let again = self
            .again
            .filter(|a| a.form.text("do") == act && a.form.text("key") == key);
        let draft = if again.is_some() {
            None
        } else {
            self.draft(act, key)
        };
        let draft_ms = draft.as_ref().map(|d| d.saved_ms);
        FormPart {
            ask: self,
            act,
            key: key.to_owned(),
            typed: again
                .map(|a| a.form.fields.clone())
                .or(draft.map(|d| d.fields)),
            trouble: again.map(|a| &a.trouble),
            draft_ms,
            holds_files: false,
        }
    }
}

impl FormPart<'_> {
    /// Lets the form send files.
    #[must_use]
    pub(crate) fn with_files(mut self) -> Self {
        self.holds_files = true;
        self
    }

    /// A value that a draft does not outweigh; what was just sent and refused does.
    #[must_use]
    pub(crate) fn over_draft(mut self, name: &str, value: &str) -> Self {
        if self.trouble.is_none()
            && let Some(typed) = &mut self.typed
        {
            typed.retain(|(n, _)| n != name);
            typed.push((name.to_owned(), value.to_owned()));
        }
        self
    }

    /// The form around its fields.
    #[expect(
        clippy::needless_pass_by_value,
        reason = "callers make the fields where they hand them over"
    )]
    pub(crate) fn wrap(&self, fields: Markup) -> Markup {
        let ask = self.ask;
        html! {
            form method="post" action=(ask.path) data-draft=(ask.draft_name(self.act, &self.key))
                enctype=[self.holds_files.then_some("multipart/form-data")] {
                input type="hidden" name="do" value=(self.act);
                input type="hidden" name="key" value=(self.key);
                // A second tap on the button must not do it twice.
                input type="hidden" name="once" value=(Uuid::from_u128(self.once()));
                @if let Some(saved_ms) = self.draft_ms {
                    p.draft {
                        (ask.words.t_with("frame-draft", &[("ago", ask.words.ago(saved_ms, ask.now.utc_ms).into())]))
                        button.quiet type="submit" name="do" value="drop-draft" formnovalidate { (ask.t("frame-draft-drop")) }
                    }
                }
                (fields)
            }
        }
    }

    fn once(&self) -> u128 {
        let mut bytes = [0; 16];
        self.ask.shared.setting.env.random(&mut bytes);
        u128::from_be_bytes(bytes)
    }

    /// What stands in a field: what was typed, else what it is filled with.
    pub(crate) fn value(&self, name: &str, filled: Option<&str>) -> String {
        match &self.typed {
            Some(typed) => typed
                .iter()
                .find(|(n, _)| n == name)
                .map(|(_, v)| v.clone())
                .unwrap_or_default(),
            None => filled.unwrap_or_default().to_owned(),
        }
    }

    fn is_chosen(&self, name: &str, value: &str, filled: bool) -> bool {
        match &self.typed {
            Some(typed) => typed.iter().any(|(n, v)| n == name && v == value),
            None => filled,
        }
    }

    fn wrong(&self, name: &str) -> Option<String> {
        self.trouble
            .and_then(|t| t.of_field(name))
            .map(|t| self.words().trouble(t))
    }

    fn words(&self) -> Words {
        self.ask.words
    }

    fn id(&self, name: &str) -> String {
        let key: String = self
            .key
            .chars()
            .filter(char::is_ascii_alphanumeric)
            .collect();
        format!("{}-{key}-{}", self.act, name.replace('.', "-"))
    }

    /// A field with its label, what helps to fill it, and what is wrong with it.
    fn field(&self, name: &str, label: &str, help: &str, input: &Markup) -> Markup {
        let id = self.id(name);
        let wrong = self.wrong(name);
        html! {
            div.field .bad[wrong.is_some()] {
                label for=(id) { (label) }
                @if !help.is_empty() { p.note id=(format!("{id}-help")) { (help) } }
                (input)
                @if let Some(wrong) = &wrong { p.fault id=(format!("{id}-fault")) { (wrong) } }
            }
        }
    }

    fn described(&self, name: &str, help: &str) -> Option<String> {
        let id = self.id(name);
        let mut by = Vec::new();
        if !help.is_empty() {
            by.push(format!("{id}-help"));
        }
        if self.wrong(name).is_some() {
            by.push(format!("{id}-fault"));
        }
        (!by.is_empty()).then(|| by.join(" "))
    }

    /// One line of text. `label` and `help` are messages, `help` may be empty.
    pub(crate) fn text(&self, name: &str, label: &str, help: &str, filled: Option<&str>) -> Markup {
        let help = self.help(help);
        let input = html! {
            input type="text" id=(self.id(name)) name=(name) value=(self.value(name, filled)) maxlength="400"
                autocomplete="off" aria-describedby=[self.described(name, &help)] aria-invalid=[self.invalid(name)];
        };
        self.field(name, &self.ask.t(label), &help, &input)
    }

    /// Several lines of text.
    pub(crate) fn lines(
        &self,
        name: &str,
        label: &str,
        help: &str,
        filled: Option<&str>,
    ) -> Markup {
        let help = self.help(help);
        let input = html! {
            textarea id=(self.id(name)) name=(name) rows="3" maxlength="4000"
                aria-describedby=[self.described(name, &help)] aria-invalid=[self.invalid(name)] {
                (self.value(name, filled))
            }
        };
        self.field(name, &self.ask.t(label), &help, &input)
    }

    /// Lines that the script writes: the fixes of a walk, or the corners of a drawing.
    pub(crate) fn by_script(
        &self,
        name: &str,
        label: &str,
        help: &str,
        filled: &str,
        walk: bool,
    ) -> Markup {
        let help = self.help(help);
        let input = html! {
            textarea id=(self.id(name)) name=(name) rows="4" spellcheck="false" data-walk-fixes[walk] data-draw-corners[!walk]
                aria-describedby=[self.described(name, &help)] aria-invalid=[self.invalid(name)] {
                (self.value(name, Some(filled)))
            }
        };
        self.field(name, &self.ask.t(label), &help, &input)
    }

    /// A number with its unit fixed, the last numbers offered, and large keys by the script.
    pub(crate) fn number(&self, field: &NumberField<'_>) -> Markup {
        self.number_called(field, &self.ask.t(field.label))
    }

    /// The same with a label already in words, such as one with a number in it.
    pub(crate) fn number_called(&self, field: &NumberField<'_>, label: &str) -> Markup {
        let NumberField {
            name,
            unit,
            filled,
            from,
            ..
        } = field;
        let sign = sward_rules::quantity::Unit::parse(unit)
            .map_or_else(|_| (*unit).to_owned(), |u| self.words().unit(u));
        let recent = self
            .ask
            .desk()
            .recent(&format!("{name} {unit}"))
            .unwrap_or_default();
        let help = from.clone();
        let input = html! {
            div.number {
                input type="text" inputmode="decimal" id=(self.id(name)) name=(name)
                    value=(self.value(name, filled.as_deref())) maxlength="40" autocomplete="off" data-pad
                    data-recent=(recent.join("|")) aria-describedby=[self.described(name, &help)] aria-invalid=[self.invalid(name)];
                span.unit { (sign) }
                input type="hidden" name=(format!("{name}.unit")) value=(unit);
            }
        };
        self.field(name, label, &help, &input)
    }

    /// A number whose unit is chosen from a few, each with its words. Numbers typed before are not
    /// offered here: what is copied from a label is looked up, never remembered.
    pub(crate) fn number_in_units(
        &self,
        name: &str,
        label: &str,
        help: &str,
        units: &[(String, String)],
        (filled, filled_unit): (&str, &str),
    ) -> Markup {
        let help = self.help(help);
        let label = self.ask.t(label);
        let unit = format!("{name}.unit");
        let called = self
            .words()
            .t_with("field-unit-of", &[("field", label.clone().into())]);
        let input = html! {
            div.number {
                input type="text" inputmode="decimal" id=(self.id(name)) name=(name)
                    value=(self.value(name, Some(filled))) maxlength="40" autocomplete="off" data-pad
                    aria-describedby=[self.described(name, &help)] aria-invalid=[self.invalid(name)];
                select name=(unit) aria-label=(called) {
                    @for (value, words) in units {
                        option value=(value) selected[self.is_chosen(&unit, value, filled_unit == value)] { (words) }
                    }
                }
            }
        };
        self.field(name, &label, &help, &input)
    }

    /// A whole number without a unit.
    pub(crate) fn count(
        &self,
        name: &str,
        label: &str,
        help: &str,
        filled: Option<&str>,
    ) -> Markup {
        let help = self.help(help);
        let recent = self.ask.desk().recent(name).unwrap_or_default();
        let input = html! {
            div.number {
                input type="text" inputmode="numeric" id=(self.id(name)) name=(name) value=(self.value(name, filled))
                    maxlength="12" autocomplete="off" data-pad="whole" data-recent=(recent.join("|"))
                    aria-describedby=[self.described(name, &help)] aria-invalid=[self.invalid(name)];
            }
        };
        self.field(name, &self.ask.t(label), &help, &input)
    }

    /// A day.
    pub(crate) fn day(&self, name: &str, label: &str, help: &str, filled: Option<&str>) -> Markup {
        self.typed_input("date", name, label, help, filled)
    }

    /// A time of day.
    pub(crate) fn time(&self, name: &str, label: &str, help: &str, filled: Option<&str>) -> Markup {
        self.typed_input("time", name, label, help, filled)
    }

    fn typed_input(
        &self,
        kind: &str,
        name: &str,
        label: &str,
        help: &str,
        filled: Option<&str>,
    ) -> Markup {
        let help = self.help(help);
        let input = html! {
            input type=(kind) id=(self.id(name)) name=(name) value=(self.value(name, filled))
                aria-describedby=[self.described(name, &help)] aria-invalid=[self.invalid(name)];
        };
        self.field(name, &self.ask.t(label), &help, &input)
    }

    /// A file.
    pub(crate) fn file(&self, name: &str, label: &str, help: &str, accept: &str) -> Markup {
        let help = self.help(help);
        let input = html! {
            input type="file" id=(self.id(name)) name=(name) accept=(accept)
                aria-describedby=[self.described(name, &help)] aria-invalid=[self.invalid(name)];
        };
        self.field(name, &self.ask.t(label), &help, &input)
    }

    /// One of several, all in sight. `options` are values with their words; none is chosen unless
    /// `filled` names it.
    pub(crate) fn choice(
        &self,
        name: &str,
        label: &str,
        options: &[(&str, String)],
        filled: Option<&str>,
    ) -> Markup {
        let wrong = self.wrong(name);
        html! {
            fieldset.field .bad[wrong.is_some()] {
                legend { (self.ask.t(label)) }
                div.choices {
                    @for (value, words) in options {
                        label.choice {
                            input type="radio" name=(name) value=(value) checked[self.is_chosen(name, value, filled == Some(*value))];
                            span { (words) }
                        }
                    }
                }
                @if let Some(wrong) = &wrong { p.fault { (wrong) } }
            }
        }
    }

    /// Any of several, all in sight.
    pub(crate) fn several(
        &self,
        name: &str,
        label: &str,
        options: &[(String, String)],
        filled: &[String],
    ) -> Markup {
        let wrong = self.wrong(name);
        html! {
            fieldset.field .bad[wrong.is_some()] {
                legend { (self.ask.t(label)) }
                div.choices {
                    @for (value, words) in options {
                        label.choice {
                            input type="checkbox" name=(name) value=(value) checked[self.is_chosen(name, value, filled.contains(value))];
                            span { (words) }
                        }
                    }
                }
                @if let Some(wrong) = &wrong { p.fault { (wrong) } }
            }
        }
    }

    /// One of many, from a list that opens.
    pub(crate) fn select(
        &self,
        name: &str,
        label: &str,
        options: &[(String, String)],
        filled: Option<&str>,
    ) -> Markup {
        let input = html! {
            select id=(self.id(name)) name=(name) aria-invalid=[self.invalid(name)] aria-describedby=[self.described(name, "")] {
                @for (value, words) in options {
                    option value=[(value != words).then_some(value)] selected[self.is_chosen(name, value, filled == Some(value))] { (words) }
                }
            }
        };
        self.field(name, &self.ask.t(label), "", &input)
    }

    /// A single box to tick.
    pub(crate) fn tick(&self, name: &str, words: &str, filled: bool) -> Markup {
        let wrong = self.wrong(name);
        html! {
            div.field .bad[wrong.is_some()] {
                label.choice {
                    input type="checkbox" name=(name) value="yes" checked[self.is_chosen(name, "yes", filled)];
                    span { (words) }
                }
                @if let Some(wrong) = &wrong { p.fault { (wrong) } }
            }
        }
    }

    /// A value that is sent along unseen.
    #[expect(
        clippy::unused_self,
        reason = "written like every other field of a form"
    )]
    pub(crate) fn hidden(&self, name: &str, value: &str) -> Markup {
        html! { input type="hidden" name=(name) value=(value); }
    }

    /// The button that sends it, saying what it does.
    pub(crate) fn submit(&self, label: &str) -> Markup {
        html! { button.way.next type="submit" { (self.ask.t(label)) } }
    }

    /// A button for something less usual than the next step.
    pub(crate) fn quiet_submit(&self, label: &str) -> Markup {
        html! { button.way type="submit" { (self.ask.t(label)) } }
    }

    fn help(&self, key: &str) -> String {
        if key.is_empty() {
            String::new()
        } else {
            self.ask.t(key)
        }
    }

    fn invalid(&self, name: &str) -> Option<&'static str> {
        self.wrong(name).map(|_| "true")
    }
}
