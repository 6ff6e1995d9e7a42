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

    readonly property int count: ofPeople ? plan.peopleNames.length : plan.bayTitles.length
    readonly property real headHeight: Theme.mm(17)
    readonly property real laneHeight: Math.max(Theme.touch, Math.min(Theme.mm(72), (lanes.height - headHeight) / Math.max(1, count)))
    // High lanes are written larger.
    readonly property bool roomy: laneHeight >= Theme.mm(40)
    // A day never takes more than the screen has room for, so that today is seen whole when upright.
    readonly property real dayWidth: Math.max(Theme.mm(210), Math.min(Theme.mm(300), width - heads.width))
    readonly property alias daysView: days
    // Where the days stand once the finger is off: what each of them shows is written into that
    // part. While they are dragged nothing is painted.
    property real restsAt: 0

    signal touched(int job)
    signal placed(int lane, int day, int minute)

    function titleAt(lane: int): string {
        return (root.ofPeople ? root.plan.peopleNames[lane] : root.plan.bayTitles[lane]) ?? ""
    }

    function secondAt(lane: int): string {
        return (root.ofPeople ? root.plan.peopleSkills[lane] : root.plan.bayNames[lane]) ?? ""
    }

    // What is over is a drag away; the last of it stays in sight.
    function toNow(): void {
        days.contentX = Math.max(0, Math.min(root.plan.days * root.dayWidth - days.width, (root.plan.gone - 0.1) * root.dayWidth))
        root.rest()
    }

    function rest(): void {
        root.restsAt = days.contentX
    }

    onVisibleChanged: {
        if (visible)
            root.toNow()
    }

    Flickable {
        id: lanes

        anchors { fill: parent; bottomMargin: legend.height + Theme.half }
        clip: true
        contentHeight: root.headHeight + root.count * root.laneHeight
        interactive: contentHeight > height
        boundsBehavior: Flickable.StopAtBounds

        Item {
            id: heads

            width: Theme.mm(root.ofPeople ? 54 : 40)
            height: lanes.contentHeight

            // The day at the left edge, also when its own head is scrolled out.
            Label {
                width: parent.width - Theme.half
                y: root.headHeight - height - Theme.half
                text: root.plan.dayWords[Math.max(0, Math.floor((days.contentX + Theme.mm(2)) / root.dayWidth))] ?? ""
                paper: false
                strong: true
                elide: Text.ElideRight
            }

            Repeater {
                model: root.count

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
                        text: root.titleAt(head.index)
                        role: Label.Title
                        paper: false
                        strong: true
                    }

                    Column {
                        anchors { left: parent.left; leftMargin: root.ofPeople ? 0 : Theme.mm(11); right: parent.right; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }

                        Label {
                            width: parent.width
                            visible: root.ofPeople
                            text: root.titleAt(head.index)
                            paper: false
                            elide: Text.ElideRight
                        }

                        Label {
                            width: parent.width
                            text: root.secondAt(head.index)
                            role: Label.Detail
                            paper: false
                            muted: true
                            wrapMode: Text.WordWrap
                            maximumLineCount: root.laneHeight >= Theme.mm(28) ? 3 : root.ofPeople && root.laneHeight < Theme.mm(22) ? 1 : 2
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
            model: root.plan.dayList

            onMovementEnded: root.rest()
            onCountChanged: root.rest()
            onWidthChanged: root.rest()

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
                fontPixels: root.roomy ? Theme.readingSize : Theme.detailSize
                hourPixels: Theme.detailSize
                shownFrom: Math.max(0, root.restsAt - day.index * root.dayWidth)
                shownTo: Math.min(day.width, root.restsAt + days.width - day.index * root.dayWidth)
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

    // What the marks on the bars mean.
    Row {
        id: legend

        anchors { right: parent.right; bottom: parent.bottom }
        height: Theme.mm(7)
        spacing: Theme.module

        PlanLegend {
            mark: PlanLegend.Late
            text: qsTr("late")
        }

        PlanLegend {
            mark: PlanLegend.InHand
            text: qsTr("in hand")
        }

        PlanLegend {
            mark: PlanLegend.Pinned
            text: qsTr("held there by the manager")
        }

        PlanLegend {
            mark: PlanLegend.Cures
            text: qsTr("cures, dries")
        }
    }
}
