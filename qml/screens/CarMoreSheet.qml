// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What can be done with a car besides its work, as a list of ways.
//   car;  signals for each
DialogSheet {
    id: root

    required property CarView car

    signal promiseWanted
    signal identityWanted
    signal factsWanted
    signal photoWanted
    signal odometerWanted
    signal leaveWanted
    signal twiceWanted
    signal bringBackWanted
    signal spokenWanted
    signal doorSheetWanted
    signal tagWanted

    readonly property bool wide: width > Theme.mm(320)

    title: qsTr("%1, %2").arg(car.stockNumber).arg(car.makeModel)
    sheetWidth: Math.min(Theme.mm(wide ? 300 : 220), width - 2 * Theme.margin)

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: root.car.factWords
            muted: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            text: root.car.vin.length > 0 ? qsTr("VIN %1 · arrived %2").arg(root.car.vin).arg(root.car.arrivedWords)
                : qsTr("arrived %1").arg(root.car.arrivedWords)
            muted: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            text: root.car.appraisalWords
            muted: true
            wrapMode: Text.WordWrap
        }

        // Its day and its pictures; what hangs on it; what was wrong; that it goes.
        Grid {
            id: ways

            readonly property real cell: Math.floor((width - (columns - 1) * spacing) / columns)

            width: parent.width
            columns: root.wide ? 3 : 2
            spacing: Theme.gap

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.release.shown
                text: qsTr("Change the promise")
                onTapped: root.promiseWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.leave.shown
                symbol: Icon.Camera
                text: qsTr("Photograph the car")
                onTapped: root.photoWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.release.shown
                text: qsTr("Spoken walk-round")
                onTapped: root.spokenWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.leave.shown
                text: qsTr("Read the odometer")
                onTapped: root.odometerWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.release.shown
                text: qsTr("Door sheet")
                onTapped: root.doorSheetWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.release.shown
                text: qsTr("Tag of a wheel")
                onTapped: root.tagWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.leave.shown
                text: qsTr("Correct who it is")
                onTapped: root.identityWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.leave.shown
                text: qsTr("Correct what it has")
                onTapped: root.factsWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.leave.shown
                text: qsTr("Entered twice")
                onTapped: root.twiceWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                visible: root.car.leave.shown
                text: root.car.release.shown ? qsTr("Leaves unreleased") : qsTr("Leaves another way")
                available: root.car.leave.can
                reason: root.car.leave.why
                onTapped: root.leaveWanted()
            }

            ActionButton {
                width: ways.cell
                paper: true
                kind: ActionButton.Accent
                visible: root.car.bringBackOffer.shown
                text: qsTr("Bring it back")
                available: root.car.bringBackOffer.can
                reason: root.car.bringBackOffer.why
                onTapped: root.bringBackWanted()
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Close")
            onTapped: root.dismissed()
        }
    ]
}
