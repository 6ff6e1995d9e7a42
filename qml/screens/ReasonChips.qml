// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A reason in one touch, or in one's own words.
//   reasons (words), label (of the field);  reason: what was chosen or typed;  clear()
Column {
    id: root

    required property var reasons
    readonly property string reason: own.text.trim().length > 0 ? own.text.trim() : chosen
    property string chosen: ""
    property alias label: own.label

    function clear(): void {
        root.chosen = ""
        own.text = ""
    }

    spacing: Theme.gap

    Flow {
        width: parent.width
        spacing: Theme.gap

        Repeater {
            model: root.reasons

            delegate: ChoiceChip {
                required property string modelData

                text: modelData
                selected: root.chosen === modelData
                onTapped: root.chosen = root.chosen === modelData ? "" : modelData
            }
        }
    }

    NoteField {
        id: own

        width: parent.width
        label: qsTr("Or in your words")
        lines: 1
    }
}
