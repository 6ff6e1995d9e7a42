// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// When somebody is away: the plan counts on them on no such day.
//   view;  signal dayWanted(string key, string title): "first" or "last"
TellingSheet {
    id: root

    required property TimesView view
    property string today: ""
    // A day that is further away than the pickers show was typed.
    property string first: ""

    signal dayWanted(string key, string title)

    function typed(key: string, iso: string): void {
        if (iso.length === 0)
            return
        if (key === "first")
            root.first = iso
        else
            root.add(root.first, iso)
    }

    function add(first: string, last: string): void {
        root.view.add(first, last)
        root.first = ""
    }

    ask: view.ask
    title: qsTr("%1: days away").arg(view.name)
    sheetWidth: Math.min(Theme.mm(250), width - 2 * Theme.margin)
    onDismissed: root.shown = false
    onShownChanged: root.first = ""

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            visible: root.view.count === 0
            text: qsTr("Here on every day on which the house works.")
            muted: true
        }

        Column {
            width: parent.width

            Repeater {
                model: root.view.away

                delegate: SettingLine {
                    required property string first
                    required property string spanWords
                    required property string daysWords

                    width: parent ? parent.width : 0
                    title: spanWords
                    detail: daysWords
                    value: qsTr("take back")
                    onTapped: root.view.remove(first)
                }
            }
        }

        DayPicker {
            width: parent.width
            visible: root.first.length === 0
            label: qsTr("Away from")
            today: root.today
            day: root.first
            onDayChanged: {
                if (day.length > 0)
                    root.first = day
            }
        }

        DayPicker {
            width: parent.width
            visible: root.first.length > 0
            label: qsTr("Away from %1 until the evening of").arg(Qt.formatDate(new Date(root.first + "T12:00:00"), "ddd d MMM yyyy"))
            today: root.first
            plain: true
            onDayChanged: {
                if (day.length > 0)
                    root.add(root.first, day)
                day = ""
            }
        }

        ActionButton {
            paper: true
            text: root.first.length === 0 ? qsTr("A later day") : qsTr("A later last day")
            onTapped: root.dayWanted(root.first.length === 0 ? "first" : "last", root.first.length === 0 ? qsTr("First day away") : qsTr("Last day away"))
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
            text: qsTr("Save")
            available: !root.view.ask.busy && root.first.length === 0
            reason: qsTr("last day first")
            onTapped: root.view.save()
        }
    ]
}
