// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// The part, or the work that is outside, comes on another day.
//   due: the day so far, as ISO date;  part: it is one, not work that is outside
//   signal said(string due, string reason): the reason may be empty
AskedSheet {
    id: root

    property string today: ""
    property string due: ""
    property bool part: true

    signal said(string due, string reason)

    title: root.part ? qsTr("The part comes on another day") : qsTr("It comes back on another day")
    sheetWidth: Math.min(Theme.mm(220), width - 2 * Theme.margin)
    asks: "changeDue"
    onOpened: {
        days.day = root.due
        why.clear()
    }

    Column {
        width: parent.width
        spacing: Theme.module

        DayPicker {
            id: days

            width: parent.width
            label: root.part ? qsTr("Due") : qsTr("Due back")
            today: root.today
        }

        ReasonChips {
            id: why

            width: parent.width
            reasons: root.part ? [qsTr("the supplier says so"), qsTr("the wrong part came"), qsTr("entered wrongly")]
                : [qsTr("the firm says so"), qsTr("entered wrongly")]
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("It comes then")
            available: days.day.length > 0 && days.day !== root.due && root.free
            reason: root.free ? qsTr("another day") : ""
            onTapped: root.said(days.day, why.reason)
        }
    ]
}
