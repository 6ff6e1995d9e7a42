// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Choices of the walk-round as chips: the likely ones, and the others behind "More".
//   choices, grouped, all (also the others), first (the first one is the rules' suggestion)
//   signals picked(string choice), moreWanted()
Flow {
    id: root

    required property Choices choices
    property bool grouped: true
    property bool all: false
    property bool first: false

    signal picked(string choice)
    signal moreWanted

    spacing: Theme.gap

    Repeater {
        id: chips

        model: root.choices

        delegate: Touchable {
            id: chip

            required property string choiceId
            required property string title
            required property string group
            required property bool chosen
            required property int index
            readonly property bool advised: root.first && index === 0

            visible: !root.grouped || root.all || group === "likely"
            spoken: title
            implicitWidth: Math.max(Theme.mm(24), words.implicitWidth + 2 * Theme.mm(4.5))
            implicitHeight: Theme.mm(21)
            onTapped: root.picked(choiceId)

            Rectangle {
                anchors.fill: parent
                radius: Theme.radius
                color: chip.chosen ? Theme.ink : chip.advised ? (chip.pressed ? Theme.accentPressed : Theme.accent)
                    : chip.pressed ? Theme.rule : Theme.sunk
            }

            Label {
                id: words

                anchors.centerIn: parent
                text: chip.title
                color: chip.chosen ? Theme.paper : chip.advised ? Theme.accentInk : Theme.ink
            }
        }
    }

    ActionButton {
        visible: root.grouped && !root.all && chips.count > 0
        implicitHeight: Theme.mm(21)
        paper: true
        text: qsTr("More")
        onTapped: root.moreWanted()
    }
}
