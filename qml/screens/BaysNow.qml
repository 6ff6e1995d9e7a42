// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The bays as they are now; below or beside them who is in none, and what is blocked.
//   board, navigator
Item {
    id: root

    required property BayBoard board
    required property Navigator navigator
    readonly property bool tall: height > width

    readonly property int across: root.tall ? 2 : Math.max(2, Math.ceil(list.count / 2))
    readonly property int down: Math.max(1, Math.ceil(list.count / root.across))

    Grid {
        id: bays

        readonly property real tileHeight: Math.min(Theme.mm(root.tall ? 100 : 92), (height - (root.down - 1) * spacing) / root.down)

        width: parent.width
        height: parent.height - lower.height - Theme.gap
        columns: root.across
        spacing: Theme.gap

        Repeater {
            id: list

            model: root.board.bays

            delegate: BoardTile {
                width: (bays.width - (root.across - 1) * bays.spacing) / root.across
                height: bays.tileHeight
                onWanted: carId => root.navigator.openCar(carId)
                onWorkWanted: (carId, operationId) => root.navigator.openOperation(carId, operationId)
            }
        }
    }

    Item {
        id: lower

        readonly property real besideBays: root.height - Theme.gap - root.down * Theme.mm(root.tall ? 100 : 92) - (root.down - 1) * Theme.gap
        readonly property real personHeight: Theme.mm(15)
        readonly property real forBlocked: Theme.mm(62)
        // Three rows of people leave the bays what they have to say; more are a swipe away.
        readonly property real forPeople: folkHead.height + Theme.half + Math.min(folk.height, 3 * personHeight + 2 * Theme.half) + Theme.half

        width: parent.width
        height: root.tall ? Math.max(Theme.mm(110), besideBays) : Math.max(forBlocked, forPeople, besideBays)
        anchors.bottom: parent.bottom

        Column {
            id: people

            width: root.tall ? parent.width : (parent.width - Theme.margin) / 2
            spacing: Theme.half

            Label {
                id: folkHead

                width: parent.width
                text: outside.count === 0 ? qsTr("Everybody is in a bay") : crowd.interactive ? qsTr("Not in a bay: %1").arg(outside.count) : qsTr("Not in a bay")
                paper: false
                muted: true
            }

            Flickable {
                id: crowd

                objectName: "notInABay"
                width: parent.width
                height: Math.min(folk.height, lower.height - folkHead.height - 2 * Theme.half - (root.tall ? lower.forBlocked : 0))
                contentHeight: folk.height
                interactive: contentHeight > height
                boundsBehavior: Flickable.DragOverBounds
                clip: interactive

                Flow {
                    id: folk

                    width: crowd.width
                    spacing: Theme.half

                    Repeater {
                        id: outside

                        model: root.board.outside

                        delegate: Item {
                            id: one

                            required property string name
                            required property bool onCar
                            required property string stockNumber
                            required property string words
                            required property bool forgotten
                            required property string nextWords

                            width: (folk.width - 2 * folk.spacing) / 3
                            height: lower.personHeight

                            Rectangle {
                                anchors.fill: parent
                                radius: Theme.radius
                                color: one.onCar ? Theme.raised : "transparent"
                                border.width: one.onCar ? 0 : Theme.line
                                border.color: Theme.groundLine
                            }

                            Column {
                                anchors { left: parent.left; right: parent.right; margins: Theme.mm(3); verticalCenter: parent.verticalCenter }

                                Label {
                                    width: parent.width
                                    text: one.forgotten ? one.name + " · " + one.stockNumber : one.name
                                    paper: false
                                    elide: Text.ElideRight
                                }

                                Label {
                                    width: parent.width
                                    text: one.onCar || one.nextWords.length === 0 ? one.words : one.words + ", " + one.nextWords
                                    role: Label.Detail
                                    paper: false
                                    muted: !one.forgotten
                                    strong: one.forgotten
                                    elide: Text.ElideRight
                                }
                            }
                        }
                    }
                }
            }
        }

        Item {
            x: root.tall ? 0 : people.width + Theme.margin
            y: root.tall ? people.height + Theme.module : 0
            width: root.tall ? parent.width : people.width
            height: parent.height - y

            Label {
                id: blockedHead

                width: parent.width
                text: blocked.count > 0 ? qsTr("Blocked") : qsTr("Nothing is blocked")
                paper: false
                muted: true
            }

            ListView {
                id: blocked

                anchors { left: parent.left; right: parent.right; top: blockedHead.bottom; bottom: parent.bottom; topMargin: Theme.half }
                clip: true
                boundsBehavior: Flickable.DragOverBounds
                model: root.board.blocked

                delegate: Touchable {
                    id: line

                    required property string carId
                    required property int operationId
                    required property string stockNumber
                    required property string title
                    required property string words
                    required property bool pastDue

                    width: blocked.width
                    spoken: line.stockNumber + " " + line.title
                    onTapped: root.navigator.openOperation(line.carId, line.operationId)

                    Rectangle {
                        anchors.fill: parent
                        anchors.bottomMargin: Theme.half
                        radius: Theme.radius
                        color: line.pressed ? Theme.groundLine : Theme.raised
                    }

                    StateBand {
                        anchors { left: parent.left; top: parent.top; bottom: parent.bottom; bottomMargin: Theme.half }
                        width: Theme.band
                        band: StateBand.Blocked
                        strong: Theme.groundInk
                        faint: Theme.groundLine
                    }

                    Label {
                        id: stock

                        anchors { left: parent.left; leftMargin: Theme.band + Theme.mm(4); verticalCenter: parent.verticalCenter; verticalCenterOffset: -Theme.half / 2 }
                        text: line.stockNumber
                        role: Label.Title
                        paper: false
                    }

                    Column {
                        anchors { left: stock.right; leftMargin: Theme.mm(5); right: parent.right; rightMargin: Theme.mm(4); verticalCenter: stock.verticalCenter }

                        Label {
                            width: parent.width
                            text: line.title
                            role: Label.Detail
                            paper: false
                            elide: Text.ElideRight
                        }

                        Label {
                            width: parent.width
                            text: line.words
                            role: Label.Detail
                            paper: false
                            strong: line.pastDue
                            muted: !strong
                            elide: Text.ElideRight
                        }
                    }
                }
            }
        }
    }
}
