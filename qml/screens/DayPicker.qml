// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A day within the next weeks, one touch away.
//   label, nowMs (the shell's), day: ISO date, empty while none is chosen;  days: how many are shown
Column {
    id: root

    property string label: ""
    property double nowMs: 0
    property string day: ""
    property int days: 12

    function isoOf(offset: int): string {
        const date = new Date(root.nowMs + offset * 86400000)
        return Qt.formatDate(date, "yyyy-MM-dd")
    }

    function wordsOf(offset: int): string {
        const date = new Date(root.nowMs + offset * 86400000)
        if (offset === 0)
            return qsTr("today")
        if (offset === 1)
            return qsTr("tomorrow")
        return Qt.formatDate(date, "ddd d MMM")
    }

    spacing: Theme.half

    Label {
        width: parent.width
        visible: root.label.length > 0
        text: root.label
        role: Label.Detail
        muted: true
    }

    Flow {
        width: parent.width
        spacing: Theme.gap

        Repeater {
            model: root.days

            delegate: ChoiceChip {
                required property int index

                text: root.wordsOf(index)
                selected: root.day === root.isoOf(index)
                onTapped: root.day = root.isoOf(index)
            }
        }
    }
}
