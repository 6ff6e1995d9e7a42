// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The choices of a view as chips that wrap.
//   choices, paper, group (only those of this group; empty: all), count
Flow {
    id: root

    required property Choices choices
    property bool paper: true
    property string group: ""

    readonly property int count: chips.count

    spacing: Theme.gap

    Repeater {
        id: chips

        model: root.choices

        delegate: ChoiceChip {
            required property string choiceId
            required property string title
            required property string group
            required property bool chosen

            visible: root.group.length === 0 || group === root.group
            text: title
            selected: chosen
            paper: root.paper
            onTapped: root.choices.choose(choiceId)
        }
    }
}
