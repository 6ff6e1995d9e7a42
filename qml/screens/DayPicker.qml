// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A day within the next weeks, one touch away.
//   label, today (the shell's), day: ISO date, empty while none is chosen;  days: how many are shown
//   plain: the first day shown is some day, not today
Column {
    id: root

    property string label: ""
    property string today: ""
    property string day: ""
    property int days: 12
    property bool plain: false

    // At noon, so that no change of the clock in between makes it another day.
    function dateOf(offset: int): date {
        const parts = root.today.split("-")
        return new Date(Number(parts[0]), Number(parts[1]) - 1, Number(parts[2]) + offset, 12)
    }

    function isoOf(offset: int): string {
        return Qt.formatDate(root.dateOf(offset), "yyyy-MM-dd")
    }

    function wordsOf(offset: int): string {
        if (offset === 0 && !root.plain)
            return qsTr("today")
        if (offset === 1 && !root.plain)
            return qsTr("tomorrow")
        return Qt.formatDate(root.dateOf(offset), "ddd d MMM")
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
