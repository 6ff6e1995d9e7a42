// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A question of the house rules with its choices.
//   question, note (small, below it), choices
Column {
    id: root

    property string question: ""
    property string note: ""
    required property Choices choices

    width: parent ? parent.width : implicitWidth
    spacing: Theme.half

    Label {
        width: parent.width
        text: root.question
        wrapMode: Text.WordWrap
    }

    Label {
        width: parent.width
        visible: text.length > 0
        text: root.note
        role: Label.Detail
        muted: true
        wrapMode: Text.WordWrap
    }

    ChoiceChips {
        width: parent.width
        choices: root.choices
    }
}
