// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The plan by bay or by person: days to drag through, a lane each. Each day is painted once.
//   plan, job, ofPeople
//   placing: the next touch says where the chosen job goes;  signals touched(job), placed(lane, day, minute)
Item {
    id: root

    required property PlanView plan
    required property PlannedJob job
    required property bool ofPeople
    property bool placing: false

    readonly property list<string> titles: ofPeople ? plan.peopleNames : plan.bayTitles
    readonly property list<string> seconds: ofPeople ? plan.peopleSkills : plan.bayNames
    readonly property real headHeight: Theme.mm(17)
    readonly property real laneHeight: Math.max(Theme.touch, Math.min(Theme.mm(30), (height - headHeight) / Math.max(1, titles.length)))
    // A day never takes more than the screen has room for, so that today is seen whole when upright.
    readonly property real dayWidth: Math.max(Theme.mm(210), Math.min(Theme.mm(300), width - heads.width))
    readonly property alias daysView: days

    signal touched(int job)
    signal placed(int lane, int day, int minute)

    // What is over is a drag away; the last of it stays in sight.
    function toNow(): void {
        days.contentX = Math.max(0, Math.min(root.plan.days * root.dayWidth - days.width, (root.plan.gone - 0.1) * root.dayWidth))
    }

    onVisibleChanged: {
        if (visible)
            root.toNow()
    }

    Flickable {
        id: lanes

        anchors.fill: parent
        clip: true
        contentHeight: root.headHeight + root.titles.length * root.laneHeight
        interactive: contentHeight > height
        boundsBehavior: Flickable.StopAtBounds

        Item {
            id: heads

            width: Theme.mm(root.ofPeople ? 46 : 40)
            height: lanes.contentHeight

            Repeater {
                model: root.titles.length

                delegate: Item {
                    id: head

                    required property int index

                    y: root.headHeight + index * root.laneHeight
                    width: heads.width
                    height: root.laneHeight

                    Label {
                        id: figure

                        anchors.verticalCenter: parent.verticalCenter
                        visible: !root.ofPeople
                        text: root.titles[head.index] ?? ""
                        role: Label.Title
                        paper: false
                        strong: true
                    }

                    Column {
                        anchors { left: parent.left; leftMargin: root.ofPeople ? 0 : Theme.mm(11); right: parent.right; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }

                        Label {
                            width: parent.width
                            visible: root.ofPeople
                            text: root.titles[head.index] ?? ""
                            paper: false
                            elide: Text.ElideRight
                        }

                        Label {
                            width: parent.width
                            text: root.seconds[head.index] ?? ""
                            role: Label.Detail
                            paper: false
                            muted: true
                            wrapMode: Text.WordWrap
                            maximumLineCount: root.ofPeople ? 1 : 2
                            elide: Text.ElideRight
                        }
                    }
                }
            }
        }

        ListView {
            id: days

            x: heads.width
            width: root.width - heads.width
            height: lanes.contentHeight
            clip: true
            orientation: ListView.Horizontal
            boundsBehavior: Flickable.DragOverBounds
            cacheBuffer: root.dayWidth
            model: root.plan.days

            delegate: PlanDay {
                id: day

                required property int index

                width: root.dayWidth
                height: lanes.contentHeight
                view: root.plan
                job: root.job
                day: index
                ofPeople: root.ofPeople
                headHeight: root.headHeight
                laneHeight: root.laneHeight
                mm: Theme.pxPerMm
                fontFamily: Theme.family
                fontPixels: Theme.detailSize
                ground: Theme.ground
                raised: Theme.raised
                groundInk: Theme.groundInk
                groundLine: Theme.groundLine
                paper: Theme.paper
                ink: Theme.ink
                inkMuted: Theme.inkMuted
                mark: Theme.accent

                MouseArea {
                    anchors.fill: parent
                    onClicked: event => {
                        if (root.placing)
                            root.placed(day.laneAt(event.y), day.day, day.minuteAt(event.x))
                        else
                            root.touched(day.jobAt(event.x, event.y, Theme.mm(8)))
                    }
                }
            }
        }
    }
}
