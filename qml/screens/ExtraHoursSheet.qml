// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Hours that somebody works beside their usual ones: the plan counts on them then.
//   view, today;  signal dayWanted(): a day that is further away than the picker shows
TellingSheet {
    id: root

    required property TimesView view
    property string today: ""
    property string day: ""
    property int from: 0
    property int to: 0

    readonly property int usual: 4 * 60

    signal dayWanted

    // After their hours of that day, or a morning where it is off.
    function choose(iso: string): void {
        if (iso.length === 0)
            return
        const closes = root.view.closesOn(iso)
        root.from = closes > 0 ? closes : 8 * 60
        root.to = closes > 0 ? Math.min(closes + 2 * 60, 24 * 60) : root.from + root.usual
        root.day = iso
    }

    ask: view.ask
    title: qsTr("%1: extra hours").arg(view.name)
    sheetWidth: Math.min(Theme.mm(250), width - 2 * Theme.margin)
    onDismissed: root.shown = false
    onShownChanged: root.day = ""

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            visible: extras.count === 0
            text: qsTr("None beside the usual hours.")
            muted: true
        }

        Column {
            width: parent.width

            Repeater {
                id: extras

                model: root.view.extra

                delegate: SettingLine {
                    required property string extraId
                    required property string dayWords
                    required property string hoursWords

                    width: parent ? parent.width : 0
                    title: dayWords
                    detail: hoursWords
                    value: qsTr("take back")
                    onTapped: root.view.removeExtra(extraId)
                }
            }
        }

        DayPicker {
            width: parent.width
            visible: root.day.length === 0
            label: qsTr("More on")
            today: root.today
            onDayChanged: {
                root.choose(day)
                day = ""
            }
        }

        ActionButton {
            paper: true
            visible: root.day.length === 0
            text: qsTr("A later day")
            onTapped: root.dayWanted()
        }

        Column {
            width: parent.width
            visible: root.day.length > 0
            spacing: Theme.gap

            Label {
                width: parent.width
                text: root.day.length === 0 ? "" : Qt.formatDate(new Date(root.day + "T12:00:00"), "ddd d MMM yyyy")
                strong: true
            }

            Flow {
                width: parent.width
                spacing: Theme.gap

                TimeStep {
                    title: qsTr("From")
                    minute: root.from
                    most: root.to - step
                    onChosen: minute => root.from = minute
                }

                TimeStep {
                    title: qsTr("To")
                    minute: root.to
                    least: root.from + step
                    onChosen: minute => root.to = minute
                }
            }

            Row {
                spacing: Theme.gap

                ActionButton {
                    paper: true
                    text: qsTr("Another day")
                    onTapped: root.day = ""
                }

                ActionButton {
                    paper: true
                    text: qsTr("Add these hours")
                    onTapped: {
                        root.view.addExtra(root.day, root.from, root.to)
                        root.day = ""
                    }
                }
            }
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
            available: !root.view.ask.busy && root.day.length === 0
            reason: qsTr("add these hours first")
            onTapped: root.view.save()
        }
    ]
}
