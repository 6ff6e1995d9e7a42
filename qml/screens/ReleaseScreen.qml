// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The gate: what holds the car in plain words, or the signature to sale.
ScreenFrame {
    id: root

    required property string carId
    readonly property CarView view: shell.car
    // Whatever else the other kiosks found since: nobody here can know.
    readonly property bool away: shell.server.away

    lead: view.stockNumber
    rest: view.makeModel
    second: view.statusWord

    // The way to what holds the car: its work, the review, or where work is opened that answers it.
    function showHold(kind: string, operationId: int, placeId: string, opensKind: string): void {
        if (operationId > 0)
            root.navigator.openOperation(root.carId, operationId)
        else if (kind === "spoken-not-reviewed")
            root.navigator.openReview(root.carId)
        else if (placeId.length > 0)
            addWork.openAt(placeId, opensKind)
        else
            root.navigator.openWalkRound(root.carId, 0)
    }

    Component.onCompleted: root.view.open(root.carId)

    Connections {
        target: root.view.ask

        function onDone(what: string): void {
            if (what === "openOperation")
                addWork.shown = false
            if (what !== "releaseToSale")
                return
            Chime.play(Chime.Signed)
            root.navigator.openRecord(root.carId)
        }
    }

    Rectangle {
        anchors.fill: parent
        visible: root.view.loaded
        radius: Theme.radius
        color: Theme.paper

        Item {
            anchors { fill: parent; margins: Theme.mm(6) }

            Label {
                id: heading

                anchors { left: parent.left; right: parent.right; top: parent.top }
                text: root.view.status === "released" ? root.view.outcomeWords
                    : held.count === 1 ? qsTr("One thing holds this car")
                    : held.count > 0 ? qsTr("%1 things hold this car").arg(held.count)
                    : root.away ? qsTr("Nobody can release a car until the server is back") : qsTr("Nothing holds this car")
                role: Label.Title
                wrapMode: Text.WordWrap
            }

            Label {
                id: meaning

                anchors { left: parent.left; right: parent.right; top: heading.bottom; topMargin: Theme.half }
                text: held.count === 0 && root.away ? qsTr("This kiosk knows of nothing that holds it, as of when it last heard from the server. Other kiosks may have found something since.")
                    : held.count > 0 ? qsTr("Each of them is closed, corrected or, where it is not a safety item, left and disclosed. There is no other way.")
                    : qsTr("Your signature releases it to sale. It stands on the handover record with your name and the time.")
                muted: true
                wrapMode: Text.WordWrap
            }

            Banner {
                id: refusal

                anchors { left: parent.left; right: parent.right; top: meaning.bottom; topMargin: Theme.module }
                visible: root.view.ask.refused && !addWork.shown
                height: visible ? implicitHeight : 0
                kind: root.view.ask.canRetry ? Banner.Fault : Banner.Refusal
                what: root.view.ask.words
                action: root.view.ask.canRetry ? qsTr("Try again") : ""
                onActed: root.view.ask.retry()
                onClosed: root.view.ask.dismiss()
            }

            Column {
                anchors { left: parent.left; right: parent.right; top: refusal.bottom; topMargin: Theme.module }
                visible: held.count === 0
                spacing: Theme.module

                Repeater {
                    model: root.view.signedForWords

                    delegate: Row {
                        id: line

                        required property string modelData

                        spacing: Theme.module

                        Icon {
                            anchors.verticalCenter: parent.verticalCenter
                            symbol: Icon.Tick
                            width: Theme.mm(7)
                            height: Theme.mm(7)
                        }

                        Label {
                            text: line.modelData
                            width: Math.min(implicitWidth, root.bodyWidth - Theme.mm(80))
                            wrapMode: Text.WordWrap
                        }
                    }
                }
            }

            ListView {
                id: held

                anchors { left: parent.left; right: parent.right; top: refusal.bottom; bottom: parent.bottom; topMargin: Theme.module }
                clip: true
                boundsBehavior: Flickable.DragOverBounds
                model: root.view.holds

                delegate: Touchable {
                    id: hold

                    required property string kind
                    required property string words
                    required property bool safety
                    required property int operationId
                    required property string placeId
                    required property string opensKind
                    required property string wayWords

                    width: held.width
                    implicitHeight: Math.max(Theme.touch + Theme.gap, sentence.implicitHeight + 2 * Theme.module)
                    spoken: hold.words
                    available: hold.wayWords.length > 0
                    onTapped: root.showHold(hold.kind, hold.operationId, hold.placeId, hold.opensKind)

                    Rectangle {
                        width: parent.width
                        height: Theme.line
                        color: Theme.rule
                    }

                    Icon {
                        id: mark

                        anchors { left: parent.left; verticalCenter: parent.verticalCenter }
                        symbol: hold.safety ? Icon.HatchMark : Icon.RingMark
                        width: Theme.mm(8)
                        height: Theme.mm(8)
                    }

                    Label {
                        id: sentence

                        anchors { left: mark.right; right: way.left; leftMargin: Theme.module; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }
                        text: hold.words
                        strong: hold.safety
                        wrapMode: Text.WordWrap
                    }

                    Label {
                        id: way

                        anchors { right: parent.right; verticalCenter: parent.verticalCenter }
                        text: hold.wayWords
                        color: Theme.accent
                    }
                }
            }

            MoreBelow {
                list: held
            }
        }

        FoldedCorner {
            anchors { right: parent.right; bottom: parent.bottom }
            visible: held.count === 0 && root.view.status !== "released" && !root.away
            width: Theme.mm(40)
            height: Theme.mm(40)
        }
    }

    Waiting {
        anchors.centerIn: parent
        visible: !root.view.loaded
        text: qsTr("Opening the car")
    }

    sheets: [
        AddWorkSheet {
            id: addWork

            car: root.view
            onDismissed: shown = false
        },
        // Otherwise what came of it stands among the holds.
        Item {
            anchors.fill: parent
            visible: addWork.shown

            AskBanner {
                anchors { bottom: parent.bottom; bottomMargin: Theme.touchSafety + 2 * Theme.module }
                ask: root.view.ask
            }
        }
    ]

    actions: [
        ActionButton {
            text: qsTr("The record")
            onTapped: root.navigator.openRecord(root.carId)
        },
        ActionButton {
            visible: root.view.status !== "released"
            kind: ActionButton.Safety
            text: qsTr("Sign and release to sale")
            available: root.view.release.can && !root.view.ask.busy && !root.away
            reason: held.count > 0 ? qsTr("held") : root.away ? qsTr("the server is away") : root.view.release.why
            onTapped: root.view.releaseToSale()
        }
    ]
}
