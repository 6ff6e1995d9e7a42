// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One day that may be years away: a usual span from today, or day, month and year on the pad.
//   ask(key, title, today as ISO);  emptyText: words of the button that takes the day away
//   signal entered(string key, string iso): iso is empty when it was taken away
DialogSheet {
    id: root

    property string key: ""
    property string today: ""
    property string emptyText: ""
    readonly property list<int> spans: [3, 6, 12, 24, 36, 60]
    readonly property string typed: isoOf(pad.text)

    signal entered(string key, string iso)

    function ask(key: string, title: string, today: string): void {
        root.key = key
        root.title = title
        root.today = today
        pad.text = ""
        root.shown = true
        pad.forceActiveFocus()
    }

    // At noon, so that no change of the clock in between makes it another day.
    function after(months: int): string {
        const parts = root.today.split("-")
        const first = new Date(Number(parts[0]), Number(parts[1]) - 1 + months, 1, 12)
        const last = new Date(first.getFullYear(), first.getMonth() + 1, 0, 12).getDate()
        first.setDate(Math.min(Number(parts[2]), last))
        return Qt.formatDate(first, "yyyy-MM-dd")
    }

    // "12052032" is a day, anything else is none.
    function isoOf(text: string): string {
        if (text.length !== 8)
            return ""
        const day = Number(text.substring(0, 2))
        const month = Number(text.substring(2, 4))
        const made = new Date(Number(text.substring(4)), month - 1, day, 12)
        return made.getDate() === day && made.getMonth() === month - 1 ? Qt.formatDate(made, "yyyy-MM-dd") : ""
    }

    function spanWords(months: int): string {
        return months < 12 ? qsTr("in %1 months").arg(months) : months === 12 ? qsTr("in a year") : qsTr("in %1 years").arg(months / 12)
    }

    function take(iso: string): void {
        root.shown = false
        root.entered(root.key, iso)
    }

    low: true
    sheetWidth: Math.min(Theme.mm(190), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        Flow {
            width: parent.width
            spacing: Theme.gap

            Repeater {
                model: root.spans

                delegate: ChoiceChip {
                    required property int modelData

                    text: root.spanWords(modelData)
                    onTapped: root.take(root.after(modelData))
                }
            }
        }

        Label {
            width: parent.width
            text: root.typed.length > 0 ? Qt.formatDate(new Date(root.typed + "T12:00:00"), "ddd d MMM yyyy")
                : pad.text.length === 8 ? qsTr("There is no such day.")
                : qsTr("Or day, month and year: 12 05 2032 is typed 12052032.")
            role: Label.Detail
            muted: root.typed.length === 0
        }

        NumberPad {
            id: pad

            anchors.horizontalCenter: parent.horizontalCenter
            digits: 8
            doneText: qsTr("Set")
            onDone: {
                if (root.typed.length > 0)
                    root.take(root.typed)
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
            visible: root.emptyText.length > 0
            text: root.emptyText
            onTapped: root.take("")
        }
    ]
}
