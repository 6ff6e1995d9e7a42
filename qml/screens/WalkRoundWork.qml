// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What comes out of the walk-round so far: the operations as they stand in the ledger, their
// minutes by skill, and the material.
//   walk, addable (whether work can be added by hand);  signals addWanted(),
//   workTouched(int operationId, string title, string place, string why)
Rectangle {
    id: root

    required property WalkRound walk
    property bool addable: true

    signal workTouched(int operationId, string title, string place, string why)
    signal addWanted

    radius: Theme.radius
    color: Theme.paper

    Item {
        id: sums

        anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.module; leftMargin: Theme.mm(6) }
        height: Math.max(add.visible ? add.height : 0, line.height)

        Column {
            id: line

            anchors { left: parent.left; right: add.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }

            Label {
                readonly property string found: root.walk.findingCount === 1 ? qsTr("1 finding") : qsTr("%1 findings").arg(root.walk.findingCount)
                readonly property string work: list.count === 1 ? qsTr("1 operation") : qsTr("%1 operations").arg(list.count)

                width: parent.width
                text: found + ", " + work + ", " + root.walk.minutesWords
                strong: true
                elide: Text.ElideRight
            }

            Flow {
                width: parent.width
                spacing: Theme.module

                Repeater {
                    model: root.walk.skills

                    delegate: Label {
                        required property string title
                        required property string minutesWords

                        text: title + " " + minutesWords
                        role: Label.Detail
                    }
                }

                Label {
                    text: qsTr("material: %1").arg(root.walk.materialWords)
                    role: Label.Detail
                    muted: true
                }
            }
        }

        ActionButton {
            id: add

            anchors { right: parent.right; verticalCenter: parent.verticalCenter }
            visible: root.addable
            paper: true
            text: qsTr("Add work")
            onTapped: root.addWanted()
        }
    }

    // Somebody else at the same car.
    Label {
        id: news

        anchors { left: parent.left; right: parent.right; top: sums.bottom; leftMargin: Theme.mm(6); rightMargin: Theme.module; topMargin: Theme.gap }
        visible: text.length > 0
        text: root.walk.newsWords
        wrapMode: Text.WordWrap
        maximumLineCount: 2
        elide: Text.ElideRight
    }

    ListView {
        id: list

        anchors { left: parent.left; right: parent.right; top: news.visible ? news.bottom : sums.bottom; bottom: parent.bottom; margins: Theme.module; topMargin: Theme.gap }
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.walk.work

        delegate: Touchable {
            id: row

            required property int operationId
            required property string title
            required property string placeId
            required property string whyWords
            required property string minutesWords
            required property bool safety
            required property bool fresh

            width: list.width
            height: Theme.touch
            spoken: title
            onTapped: root.workTouched(operationId, title, placeId, whyWords)

            Rectangle {
                anchors.fill: parent
                radius: Theme.radius
                color: row.pressed ? Theme.rule : row.fresh ? Theme.sunk : "transparent"
            }

            Icon {
                id: sign

                anchors { left: parent.left; leftMargin: Theme.half; verticalCenter: parent.verticalCenter }
                width: Theme.mm(4.2)
                height: Theme.mm(4.2)
                symbol: row.safety ? Icon.HatchMark : Icon.RingMark
            }

            Column {
                anchors { left: sign.right; leftMargin: Theme.half; right: minutes.left; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }

                Label {
                    width: parent.width
                    text: row.title
                    strong: row.safety
                    elide: Text.ElideRight
                }

                Label {
                    width: parent.width
                    text: row.whyWords
                    role: Label.Detail
                    muted: true
                    elide: Text.ElideRight
                }
            }

            Label {
                id: minutes

                anchors { right: parent.right; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }
                text: row.minutesWords
            }

            Rectangle {
                anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
                height: Theme.line
                color: Theme.rule
            }
        }
    }
}
