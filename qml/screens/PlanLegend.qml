// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A mark of the plan's bars, drawn as it is there, and what it means.
//   mark: PlanLegend.Late | PlanLegend.InHand | PlanLegend.Pinned | PlanLegend.Cures;  text
Row {
    id: root

    enum Mark {
        Late,
        InHand,
        Pinned,
        Cures
    }

    required property int mark
    required property string text

    height: parent?.height ?? 0
    spacing: Theme.half

    Item {
        anchors.verticalCenter: parent.verticalCenter
        width: Theme.mm(9)
        height: Theme.mm(6)

        Rectangle {
            width: root.mark === PlanLegend.Cures ? Theme.mm(3) : parent.width
            height: parent.height
            radius: Theme.mm(0.8)
            color: Theme.paper
            clip: true

            Rectangle {
                anchors { left: parent.left; leftMargin: Theme.mm(1.5); right: parent.right; rightMargin: Theme.mm(1.5); bottom: parent.bottom; bottomMargin: Theme.mm(1.6) }
                height: Theme.mm(0.8)
                visible: root.mark === PlanLegend.Late
                color: Theme.ink
            }

            Rectangle {
                width: Theme.mm(2.2)
                height: parent.height
                visible: root.mark === PlanLegend.InHand
                color: Theme.ink
            }

            // Half of it lies outside: what is left is the corner.
            Rectangle {
                x: parent.width - width / 2
                y: -height / 2
                width: Theme.mm(3.7)
                height: width
                rotation: 45
                visible: root.mark === PlanLegend.Pinned
                color: Theme.ink
            }
        }

        Rectangle {
            x: Theme.mm(3)
            width: parent.width - x
            height: Theme.mm(0.6)
            anchors.verticalCenter: parent.verticalCenter
            visible: root.mark === PlanLegend.Cures
            color: Theme.groundInk
        }

        Rectangle {
            anchors { right: parent.right; verticalCenter: parent.verticalCenter }
            width: Theme.mm(0.6)
            height: Theme.mm(4)
            visible: root.mark === PlanLegend.Cures
            color: Theme.groundInk
        }
    }

    Label {
        anchors.verticalCenter: parent.verticalCenter
        text: root.text
        role: Label.Detail
        paper: false
        muted: true
    }
}
