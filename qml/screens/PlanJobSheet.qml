// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A job of the plan: whose, why then, what it waits for; another person, bay or time, and what would
// come of it before it is taken.
//   job;  signals operationWanted(), carWanted(), placeWanted(): the next touch on the plan says where it goes
DialogSheet {
    id: root

    required property PlannedJob job

    signal operationWanted
    signal carWanted
    signal placeWanted

    title: job.stockNumber + " · " + job.title
    low: true
    sheetWidth: Math.min(Theme.mm(400), width - 2 * Theme.margin)
    onDismissed: root.close()

    function close(): void {
        root.shown = false
        root.job.leave()
    }

    Column {
        width: parent.width
        spacing: Theme.module

        AskBanner {
            ask: root.job.ask
            anchors.margins: 0
        }

        Column {
            width: parent.width

            Label {
                width: parent.width
                text: root.job.when + " · " + root.job.whose
                strong: true
                wrapMode: Text.WordWrap
            }

            Label {
                width: parent.width
                visible: root.job.foreseen
                text: root.job.foreseenWords
                wrapMode: Text.WordWrap
            }

            Label {
                width: parent.width
                text: root.job.why
                wrapMode: Text.WordWrap
            }

            Label {
                width: parent.width
                visible: root.job.pinnedWords.length > 0
                text: qsTr("By the manager's word: %1").arg(root.job.pinnedWords)
                muted: true
                wrapMode: Text.WordWrap
            }
        }

        PlanChoice {
            width: parent.width
            visible: root.job.movable
            title: qsTr("Who")
            choices: root.job.people
            onSaid: id => root.job.choosePerson(id)
        }

        PlanChoice {
            width: parent.width
            visible: root.job.movable
            title: qsTr("Where")
            choices: root.job.bays
            onSaid: id => root.job.chooseBay(id)
        }

        PlanChoice {
            width: parent.width
            visible: root.job.movable
            title: qsTr("When")
            choices: root.job.times
            onSaid: id => root.job.chooseTime(id)
        }

        Rectangle {
            width: parent.width
            height: outcome.height + 2 * Theme.module
            visible: root.job.differs
            radius: Theme.radius
            color: Theme.sunk

            Column {
                id: outcome

                anchors { left: parent.left; right: parent.right; margins: Theme.mm(5); verticalCenter: parent.verticalCenter }
                spacing: Theme.line

                Label {
                    width: parent.width
                    text: root.job.considering ? qsTr("Looking at what comes of it") : root.job.becomes
                    strong: !root.job.considering
                    wrapMode: Text.WordWrap
                }

                Repeater {
                    model: root.job.shifts.length

                    delegate: Label {
                        required property int index

                        width: outcome.width
                        visible: index < 6
                        text: root.job.shifts[index] ?? ""
                        elide: Text.ElideRight
                    }
                }

                Label {
                    width: parent.width
                    visible: root.job.considered && text.length > 0
                    text: root.job.shifts.length > 6 ? qsTr("and %1 more cars").arg(root.job.shifts.length - 6)
                        : root.job.shifts.length === 0 ? qsTr("No car is ready at another time.") : ""
                    muted: true
                }
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            visible: !root.job.differs
            text: qsTr("Close")
            onTapped: root.close()
        },
        ActionButton {
            paper: true
            visible: !root.job.differs && !root.job.foreseen
            text: qsTr("To the operation")
            onTapped: root.operationWanted()
        },
        ActionButton {
            paper: true
            visible: root.job.foreseen
            text: qsTr("To the car")
            onTapped: root.carWanted()
        },
        ActionButton {
            paper: true
            visible: !root.job.differs && root.job.movable
            text: qsTr("Show where")
            onTapped: root.placeWanted()
        },
        ActionButton {
            paper: true
            visible: root.job.differs
            text: qsTr("Leave it")
            onTapped: root.job.leave()
        },
        ActionButton {
            paper: true
            visible: root.job.differs
            kind: ActionButton.Accent
            text: qsTr("Take it")
            available: root.job.considered && !root.job.ask.busy
            reason: qsTr("looking")
            onTapped: root.job.take()
        }
    ]
}
