// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The car's lists, one at a time: its work by place, findings, photos, history. A chosen place
// narrows work and findings to it.
//   car, page, place (id, or empty for all), placeWords
//   workCount, findingCount: those that are shown; photoCount
//   server: what waits here for it
//   comparable: some work was photographed before and after
//   operationTouched(), findingTouched(), photoTouched(), compareWanted(),
//   workWanted(): add some at the place
Rectangle {
    id: root

    enum Page {
        Work,
        Findings,
        Photos,
        History
    }

    required property CarView car
    required property int page
    required property string place
    required property string placeWords
    property bool comparable: false
    required property ServerView server
    // Counted again with each change of the car.
    readonly property int workCount: car.loaded ? car.operations.countAt(place) : 0
    readonly property int findingCount: car.loaded ? car.findings.countAt(place) : 0
    readonly property int photoCount: photos.count
    readonly property Component heading: Qt.createComponent("ListHeading.qml")

    signal operationTouched(int operationId)
    signal findingTouched(FindingLine finding)
    signal photoTouched(string photoKey, string url, string caption)
    signal compareWanted
    signal workWanted

    radius: Theme.radius
    color: Theme.paper

    ListView {
        id: work

        anchors { fill: parent; margins: Theme.mm(4); topMargin: Theme.half }
        visible: root.page === CarLists.Work
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.car.operations
        section.property: root.place.length > 0 ? "" : "placeWords"
        section.delegate: root.heading

        delegate: OperationLine {
            width: work.width
            height: root.place.length === 0 || placeId === root.place ? implicitHeight : 0
            visible: height > 0
            kept: root.server.waiting > 0 && root.server.keepsWork(root.car.carId, operationId)
            onTapped: root.operationTouched(operationId)
        }
    }

    MoreBelow {
        list: work
    }

    ListView {
        id: findings

        anchors { fill: parent; margins: Theme.mm(6); topMargin: Theme.half }
        visible: root.page === CarLists.Findings
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.car.findings

        delegate: FindingLine {
            id: line

            width: findings.width
            height: root.place.length === 0 || placeId === root.place ? implicitHeight : 0
            visible: height > 0
            onTapped: root.findingTouched(line)
        }
    }

    MoreBelow {
        list: findings
    }

    GridView {
        id: photos

        readonly property int across: Math.max(1, Math.floor(width / Theme.mm(56)))

        anchors { left: parent.left; right: parent.right; top: parent.top; bottom: compare.visible ? compare.top : parent.bottom; margins: Theme.mm(6) }
        visible: root.page === CarLists.Photos
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        cellWidth: Math.floor(width / across)
        cellHeight: Theme.mm(48)
        model: root.car.photos

        delegate: Item {
            id: cell

            required property string photoKey
            required property string url
            required property string fullUrl
            required property string momentWords
            required property string placeWords
            required property string byWords
            required property string goneWords
            readonly property string where: placeWords.length > 0 ? placeWords + " · " : ""

            width: photos.cellWidth
            height: photos.cellHeight

            PhotoTile {
                id: tile

                anchors { fill: parent; margins: Theme.gap / 2 }
                source: cell.url
                caption: cell.momentWords + " · " + cell.byWords
                gone: cell.goneWords
                onTapped: {
                    if (cell.goneWords.length === 0)
                        root.photoTouched(cell.photoKey, cell.fullUrl, cell.where + tile.caption)
                }
            }
        }
    }

    MoreBelow {
        list: photos
    }

    ActionButton {
        id: compare

        anchors { right: parent.right; bottom: parent.bottom; margins: Theme.mm(6) }
        visible: root.page === CarLists.Photos && root.comparable
        paper: true
        text: qsTr("Before and after")
        onTapped: root.compareWanted()
    }

    ListView {
        id: history

        anchors { fill: parent; margins: Theme.mm(6); topMargin: Theme.half }
        visible: root.page === CarLists.History
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.car.history
        section.property: "dayWords"
        section.delegate: root.heading

        delegate: HistoryLine {
            width: history.width
            onTapped: root.operationTouched(operationId)
        }
    }

    MoreBelow {
        list: history
    }

    EmptyState {
        anchors.centerIn: parent
        paper: true
        visible: root.page === CarLists.Findings ? root.findingCount === 0
            : root.page === CarLists.Photos ? photos.count === 0
            : root.page === CarLists.Work ? root.workCount === 0 : false
        title: root.page === CarLists.Findings ? root.place.length > 0 ? qsTr("Nothing was found here") : qsTr("No findings")
            : root.page === CarLists.Photos ? qsTr("No photos yet") : qsTr("No work here")
        hint: root.page !== CarLists.Photos && root.place.length > 0 ? root.placeWords : ""
        action: root.page === CarLists.Work && root.place.length > 0 && root.car.release.shown ? qsTr("Add work here") : ""
        onActed: root.workWanted()
    }
}
