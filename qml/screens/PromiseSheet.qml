// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Another promised day, or what it counts for against other cars' promises, with the reason.
//   car, today
DialogSheet {
    id: root

    required property CarView car
    required property string today
    property string importance: ""

    readonly property bool differs: days.day !== root.car.promised || root.importance !== root.car.importance

    title: qsTr("When is %1 promised?").arg(car.stockNumber)
    sheetWidth: Math.min(Theme.mm(240), width - 2 * Theme.margin)
    onShownChanged: {
        if (root.shown) {
            days.day = root.car.promised
            root.importance = root.car.importance
            why.text = ""
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        DayPicker {
            id: days

            width: parent.width
            today: root.today
        }

        Column {
            width: parent.width
            spacing: Theme.half

            Label {
                width: parent.width
                text: qsTr("When not every promise can be kept, this one")
                role: Label.Detail
                muted: true
                wrapMode: Text.WordWrap
            }

            Flow {
                width: parent.width
                spacing: Theme.gap

                Repeater {
                    model: root.car.importances

                    delegate: ChoiceChip {
                        required property string choiceId
                        required property string title

                        text: title
                        selected: root.importance === choiceId
                        onTapped: root.importance = choiceId
                    }
                }
            }
        }

        NoteField {
            id: why

            width: parent.width
            label: qsTr("Why")
            lines: 2
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.dismissed()
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Change the promise")
            available: root.differs && days.day.length > 0 && why.text.trim().length > 0 && !root.car.ask.busy
            reason: qsTr("another day or weight, and why")
            onTapped: root.car.changePromise(days.day, root.importance, why.text)
        }
    ]
}
